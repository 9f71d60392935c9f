/* Keeps <main data-follow data-seq> in step with the tournament's log.

   Asks `?after=<seq>`: 204 is "nothing newer", 200 with X-Seq brings the inside of main. What stays
   the same stays the same node, so focus, scrolling and opened explanations survive. While a form
   inside has been edited nothing is exchanged. */

const EVERY = 3000;
const AT_MOST = 15000;
const PATIENCE = 10000;

const main = document.querySelector("main[data-follow][data-seq]");
const fresh = document.querySelector("[data-fresh]");
const lost = document.querySelector("[data-lost]");
const edited = new Set();

let seq = main ? main.dataset.seq : "";
let wait = EVERY;
let timer = 0;
let asking = false;
let ended = false;
let last = new Date();

function clock(moment) {
  const shape = { hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23" };
  try {
    return moment.toLocaleTimeString("en-GB", { ...shape, timeZone: fresh?.dataset.zone || undefined });
  } catch {
    return moment.toLocaleTimeString("en-GB", shape);
  }
}

function say(element, template) {
  if (!element) return;
  const text = template ? template.replace("{time}", clock(last)).replace("{seq}", seq) : "";
  if (element.textContent !== text) element.textContent = text;
}

function sayFresh() {
  say(fresh, edited.size ? fresh?.dataset.held : fresh?.dataset.asOf);
}

/* Two neighbours are the same thing if their kind and their name agree. */
function same(a, b) {
  return a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.id || "") === (b.id || "");
}

function adopt(old, next) {
  if (old.isEqualNode(next)) return;
  if (old.nodeType !== Node.ELEMENT_NODE) {
    old.nodeValue = next.nodeValue;
    return;
  }
  for (const { name } of [...old.attributes]) {
    const keep = name === "open" && old.localName === "details";
    if (!keep && !next.hasAttribute(name)) old.removeAttribute(name);
  }
  for (const { name, value } of next.attributes) {
    const keep = name === "open" && old.localName === "details";
    if (!keep && old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  exchange(old, next);
}

/* Make the children of `old` those of `next`, keeping every node that can stay. */
function exchange(old, next) {
  const named = new Map([...old.children].filter((e) => e.id).map((e) => [e.id, e]));
  const wantedIds = new Set([...next.children].map((e) => e.id));
  for (const [id, element] of named) if (!wantedIds.has(id)) element.remove();
  let here = old.firstChild;
  for (const wanted of [...next.childNodes]) {
    if (wanted.nodeType === Node.ELEMENT_NODE) here = pastText(here, wanted);
    const known = wanted.id && named.get(wanted.id);
    if (here && same(here, wanted)) {
      const current = here;
      here = here.nextSibling;
      adopt(current, wanted);
    } else if (known && same(known, wanted)) {
      old.insertBefore(known, here);
      adopt(known, wanted);
    } else {
      old.insertBefore(document.importNode(wanted, true), here);
    }
  }
  while (here) {
    const surplus = here;
    here = here.nextSibling;
    surplus.remove();
  }
}

/* Spaces between tags must not put the two lists out of step. */
function pastText(here, wanted) {
  let ahead = here;
  while (ahead && ahead.nodeType === Node.TEXT_NODE) ahead = ahead.nextSibling;
  if (!ahead || !same(ahead, wanted)) return here;
  while (here !== ahead) {
    const space = here;
    here = here.nextSibling;
    space.remove();
  }
  return here;
}

function take(html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  const focused = main.contains(document.activeElement) ? document.activeElement : null;
  exchange(main, page.body);
  if (focused && document.activeElement !== focused) {
    const again = focused.isConnected ? focused : focused.id && document.getElementById(focused.id);
    if (again) again.focus({ preventScroll: true });
  }
  main.dispatchEvent(new CustomEvent("headtable:fresh", { bubbles: true, detail: { seq } }));
}

function giveUp(template) {
  ended = true;
  say(lost, template);
}

async function ask() {
  const address = new URL(main.dataset.follow, location.href);
  address.searchParams.set("after", seq);
  const answer = await fetch(address, {
    cache: "no-cache",
    headers: { Accept: "text/html" },
    signal: AbortSignal.timeout(PATIENCE),
  });
  if (answer.redirected || [401, 403, 404, 410].includes(answer.status)) {
    giveUp(lost?.dataset.gone);
    return;
  }
  if (!answer.ok) throw new Error(`answered ${answer.status}`);
  const date = Date.parse(answer.headers.get("Date") || "");
  last = Number.isNaN(date) ? new Date() : new Date(date);
  if (answer.status === 200) {
    const newest = answer.headers.get("X-Seq");
    if (newest === null) {
      ended = true;
      return;
    }
    const html = await answer.text();
    if (!edited.size) {
      seq = newest;
      main.dataset.seq = seq;
      take(html);
    }
  }
  say(lost, "");
  sayFresh();
}

async function turn() {
  clearTimeout(timer);
  if (asking || ended || document.hidden) return;
  asking = true;
  try {
    await ask();
    wait = EVERY;
  } catch {
    wait = Math.min(wait * 2, AT_MOST);
    say(lost, lost?.dataset.lost);
  }
  asking = false;
  if (!ended) timer = setTimeout(turn, wait);
}

if (main) {
  main.addEventListener("input", (event) => {
    const form = event.target.closest("form");
    if (form) edited.add(form);
  });
  main.addEventListener("reset", (event) => edited.delete(event.target));
  document.addEventListener("visibilitychange", turn);
  addEventListener("online", turn);
  addEventListener("pageshow", turn);
  timer = setTimeout(turn, EVERY);
}
