/* Moving a wrestler in the order: by dragging his handle, or with the arrow keys on it.

   The page moves nothing by itself: the row is shown where it would stand, and the form of the move
   asks for the reason. Without this script the same form does it all. */

const list = document.querySelector("ol.order");
const form = document.querySelector("#move form");
const status = document.querySelector("#moving");
let moving = null; // { row, start: index of where it stood }
let dragged = false;

const rows = () => [...list.querySelectorAll("li[data-entry]")];
const placeOf = (row) => rows().indexOf(row) + 1;

function say(words, row) {
  status.textContent = words
    .replace("{name}", row.dataset.name)
    .replace("{to}", placeOf(row))
    .replace("{of}", rows().length);
}

function begin(row) {
  if (moving?.row === row) return;
  putBack();
  const before = row.getBoundingClientRect().top;
  moving = { row, start: placeOf(row) };
  list.classList.add("moving");
  row.classList.add("moved");
  status.classList.remove("sr"); // what to press next is said to everybody while a row is held
  // The reasons between the rows are gone. At once: a gliding page would be stopped by the next step.
  scrollBy({ top: row.getBoundingClientRect().top - before, behavior: "instant" });
}

/* Puts the row at a place, counted from 1, among the rows that can be moved. */
function show(row, place) {
  const others = rows().filter((one) => one !== row);
  const next = others[place - 1];
  if (next) next.before(row);
  else others.at(-1)?.after(row);
  rows().forEach((one, at) => (one.querySelector(".seed").textContent = at + 1));
}

function step(row, by) {
  begin(row);
  const place = placeOf(row) + by;
  if (place < 1 || place > rows().length) return;
  show(row, place);
  fill(row);
  row.querySelector(".handle").focus();
  row.scrollIntoView({ block: "nearest", behavior: "instant" });
  say(status.dataset.at, row);
}

function end() {
  list.classList.remove("moving");
  status.classList.add("sr");
  moving?.row.classList.remove("moved");
  moving = null;
}

function putBack(focus = false) {
  if (!moving) return;
  const { row, start } = moving;
  show(row, start);
  end();
  say(status.dataset.back, row);
  if (focus) row.querySelector(".handle").focus();
}

/* The form of the move follows the row: wrestler and place are filled in. */
function fill(row) {
  form.elements.entry.value = row.dataset.entry;
  form.elements.to.value = placeOf(row);
}

/* Then the reason is asked for. */
function ask() {
  fill(moving.row);
  form.scrollIntoView({ block: "center", behavior: "instant" });
  form.elements.reason.focus({ preventScroll: true });
  say(status.dataset.ask, moving.row);
}

function onKey(event) {
  const handle = event.target.closest(".handle");
  const row = handle?.closest("li");
  if (event.key === "Escape" && moving) {
    event.preventDefault();
    putBack(true);
  } else if (row && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
    event.preventDefault();
    step(row, event.key === "ArrowUp" ? -1 : 1);
  } else if (row && event.key === "Enter") {
    event.preventDefault();
    begin(row);
    ask();
  }
}

function follow(event) {
  const { row } = moving;
  const edge = 56;
  if (event.clientY < edge) scrollBy({ top: -16, behavior: "instant" });
  if (event.clientY > innerHeight - edge) scrollBy({ top: 16, behavior: "instant" });
  const above = rows().filter((one) => {
    const box = one.getBoundingClientRect();
    return one !== row && box.top + box.height / 2 < event.clientY;
  });
  if (placeOf(row) === above.length + 1) return;
  show(row, above.length + 1);
  dragged = true;
  say(status.dataset.at, row);
}

function drag(event) {
  const handle = event.target.closest(".handle");
  if (!handle || event.button) return;
  event.preventDefault();
  handle.focus();
  dragged = false;
  begin(handle.closest("li"));
  const over = (released) => {
    removeEventListener("pointermove", follow);
    removeEventListener("pointerup", over);
    removeEventListener("pointercancel", over);
    if (released.type === "pointercancel" || !dragged) putBack();
    else ask();
  };
  addEventListener("pointermove", follow);
  addEventListener("pointerup", over);
  addEventListener("pointercancel", over);
}

if (list && form && status) {
  for (const handle of list.querySelectorAll(".handle[hidden]")) handle.hidden = false;
  document.querySelector("#how-to-move").hidden = false;
  list.addEventListener("pointerdown", drag);
  document.addEventListener("keydown", onKey);
}
