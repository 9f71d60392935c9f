/* Lights up one wrestler's way on a sheet: walked, and still possible.

   The drawing says how bouts hang together: [data-bout] with data-winner and data-loser (the bout
   that each goes on to), .side[data-entry] inside it, .line[data-from][data-to]. The list by round
   wears the same names. Pointing or focusing lights for the moment; the picker, or an address that
   ends in #w-<entry>, keeps a way lit. */

const root = document.querySelector("main");
let kept = "";

const bouts = () => [...root.querySelectorAll("[data-bout]")];
const sides = () => [...root.querySelectorAll(".sheet .side[data-entry]")];
const entryOf = (target) => target.closest?.(".side[data-entry], .band[data-entry]")?.dataset.entry;

function has(bout, entry) {
  return [...bout.querySelectorAll("[data-entry]")].some((side) => side.dataset.entry === entry);
}

/* The keys of the bouts he has or has had, and of those he may still come to. */
function ways(entry) {
  const byKey = new Map();
  for (const bout of bouts()) if (!byKey.has(bout.dataset.bout)) byKey.set(bout.dataset.bout, bout);
  const own = new Set();
  const may = new Set();
  const ahead = [];
  for (const [key, bout] of byKey) {
    if (!has(bout, entry)) continue;
    own.add(key);
    if (!bout.classList.contains("decided")) ahead.push(bout);
  }
  while (ahead.length) {
    const bout = ahead.pop();
    for (const key of [bout.dataset.winner, bout.dataset.loser]) {
      if (!key || own.has(key) || may.has(key) || !byKey.has(key)) continue;
      may.add(key);
      ahead.push(byKey.get(key));
    }
  }
  return { own, may };
}

function light(entry) {
  for (const old of root.querySelectorAll(".lit, .may")) old.classList.remove("lit", "may");
  if (!entry) return;
  const { own, may } = ways(entry);
  for (const bout of bouts()) {
    if (own.has(bout.dataset.bout)) bout.classList.add("lit");
    else if (may.has(bout.dataset.bout)) bout.classList.add("may");
  }
  for (const side of sides()) if (side.dataset.entry === entry) side.classList.add("lit");
  for (const line of root.querySelectorAll(".line[data-from][data-to]")) {
    const { from, to } = line.dataset;
    if (own.has(from) && own.has(to)) line.classList.add("lit");
    else if ((own.has(from) || may.has(from)) && may.has(to)) line.classList.add("may");
  }
}

function keep(entry) {
  kept = entry;
  const picker = root.querySelector("select[data-light]");
  if (picker && picker.value !== entry) picker.value = entry;
  light(kept);
}

/* One stop for Tab in the drawing; the arrows go on from there. */
function rove(chosen) {
  for (const side of sides()) side.setAttribute("tabindex", side === chosen ? "0" : "-1");
}

function middle(side) {
  const box = side.getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
}

const TOWARDS = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };

function nearest(from, [dx, dy]) {
  const start = middle(from);
  let best = null;
  let least = Infinity;
  for (const side of sides()) {
    const at = middle(side);
    const along = (at.x - start.x) * dx + (at.y - start.y) * dy;
    const across = Math.abs((at.x - start.x) * dy) + Math.abs((at.y - start.y) * dx);
    if (along < 2) continue;
    const own = dx && side.dataset.entry === from.dataset.entry ? 0.01 : 1;
    const far = (along + across * 4) * own;
    if (far < least) [best, least] = [side, far];
  }
  return best;
}

function begin() {
  const all = sides();
  if (!all.length) return;
  rove(all.find((side) => side.getAttribute("tabindex") === "0") || all[0]);
  light(kept);
}

if (root?.querySelector("[data-bout]")) {
  root.addEventListener("pointerover", (event) => {
    const entry = entryOf(event.target);
    if (entry) light(entry);
  });
  root.addEventListener("pointerout", (event) => {
    if (entryOf(event.target)) light(kept);
  });
  root.addEventListener("focusin", (event) => {
    const side = event.target.closest(".sheet .side[data-entry]");
    if (!side) return;
    rove(side);
    light(side.dataset.entry);
  });
  root.addEventListener("focusout", (event) => {
    if (entryOf(event.target)) light(kept);
  });
  root.addEventListener("keydown", (event) => {
    const side = event.target.closest(".sheet .side[data-entry]");
    if (event.key === "Escape") keep("");
    if (!side) return;
    if (event.key === " ") {
      event.preventDefault();
      keep(kept === side.dataset.entry ? "" : side.dataset.entry);
    }
    const towards = TOWARDS[event.key];
    if (!towards) return;
    event.preventDefault();
    nearest(side, towards)?.focus();
  });
  root.addEventListener("change", (event) => {
    if (event.target.matches("select[data-light]")) keep(event.target.value);
  });
  root.addEventListener("headtable:fresh", begin);
  for (const picker of root.querySelectorAll(".light[hidden]")) picker.hidden = false;
  begin();
  if (location.hash.startsWith("#w-")) keep(location.hash.slice(3));
}
