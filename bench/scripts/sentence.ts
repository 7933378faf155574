// The sentence: a changed word fetches what it changes, and the address
// follows. Focus stays where it is, and nothing moves but what changed.
import { keepAddress } from "./address";
import htmx from "./vendor/htmx";
import { Idiomorph } from "./vendor/idiomorph";
import { picturesOf, shownMarks, showPictures, watchPictures, whenPainted } from "./pictures";

const widthHeader = "Heddle-Width";
const shownHeader = "Heddle-Shown";

// The page's scripts may not be strings, styles may not stand inline, and the
// address is kept below.
htmx.config.allowEval = false;
htmx.config.includeIndicatorStyles = false;
htmx.config.historyEnabled = false;
htmx.config.defaultSettleDelay = 0;
htmx.config.defaultSwapDelay = 0;
htmx.config.selfRequestsOnly = true;

const reading = document.createRange(); // reads text as what may stand on the page

// What is shown, and what was asked for. Answers may come in another order than
// they were asked for: one that comes after a later one is let go.
let address = location.pathname + location.search;
let asked = 0;
let answered = 0;
let underWay = 0; // requests without an answer so far
let edits = 0; // words that a person changed
let returns = 0; // times the browser went back or forward
let restDue = false; // what was out of sight is not yet that of the address
let mending = ""; // the control of the wrong word that a link puts right

/** How an address is taken up. */
interface Manner {
  entry: boolean; // one can go back from it
  over: boolean; // also over what is being typed
}

const onward: Manner = { entry: true, over: false };

/** What was asked for, and when: the how-manieth request it is, after how many
 * changed words. */
interface Asking {
  turn: number;
  edits: number;
  how: Manner;
}

const ask = (how: Manner): Asking => ({ turn: ++asked, edits, how });

// take shows what an answer says. A form in which words were changed since it
// was asked for stays as it is: it has been sent, or will be.
function take(answer: string, over: boolean, since: number): void {
  const [rest, pictures] = picturesOf(answer);
  const says = reading.createContextualFragment(rest);
  copyFacts(says);
  showPictures(pictures);
  if (since !== edits) return;
  for (const id of ["exercise", "rare"]) {
    const from = document.getElementById(id);
    const to = says.getElementById(id);
    if (from && to) become(from, to, over); // else it looks as it should
  }
}

// become changes a part of the form in place, leaving alone what is equal, what
// has the focus, and which parts a person has opened.
function become(from: Element, to: Element, over: boolean): void {
  const held = from.contains(document.activeElement) ? document.activeElement?.id : "";
  const said = [...(held ? to.querySelectorAll(`#${held} option`) : [])].map((option) => option.textContent);
  Idiomorph.morph(from, to, {
    morphStyle: "outerHTML",
    ignoreActiveValue: !over,
    callbacks: {
      beforeAttributeUpdated: (name: string, element: Element) => !(name === "open" && element instanceof HTMLDetailsElement),
    },
  });
  if (held && (document.activeElement?.id !== held || closedAround(document.activeElement))) focusOn(held);
  // What has the focus is left alone, but the sentence may say it in other words.
  for (const [i, option] of (held ? document.querySelectorAll(`#${held} option`) : []).entries()) {
    if (option.textContent !== said[i]) option.textContent = said[i] ?? "";
  }
}

// focusOn gives a control the focus; what opens it, where it is out of sight.
function focusOn(id: string): void {
  const control = document.getElementById(id);
  (closedAround(control)?.querySelector("summary") ?? control)?.focus();
}

const closedAround = (element: Element | null) => element?.closest("details:not([open])");

let asking: AbortController | null = null; // for what was out of sight

// askForRest fetches what an answer left out because it was out of sight.
async function askForRest(): Promise<void> {
  asking?.abort();
  asking = new AbortController();
  const { signal } = asking;
  const since = edits;
  try {
    const answer = await fetch(address, { signal, headers: { "HX-Request": "true", ...shownHeaders("later") } });
    const text = await answer.text();
    if (signal.aborted) return;
    if (!answer.ok) return tell(text);
    restDue = false;
    take(text, false, since);
  } catch {
    if (!signal.aborted) tell("");
  }
}

// shownHeaders tell how much room there is and what the page shows; of its
// form, only where that itself asks. A form with a wrong word stays as typed.
function shownHeaders(form: string): Record<string, string> {
  const wrong = form === "later" && document.getElementById("exercise")?.dataset.mark === "";
  return { [widthHeader]: `${room()} ${widthOf("neck")}`, [shownHeader]: `exercise=${form} ${shownMarks(form !== "later")}${wrong ? " rare=later" : ""}` };
}

// tell says why there is no answer, until the next one: in the server's words,
// or that there are none.
function tell(words: string): void {
  const fault = document.createElement("p");
  fault.className = "fault";
  fault.textContent = words.trim() || "heddle does not answer: what is shown is the last it sent. Is it still running?";
  document.querySelector("#exercise .faults")?.replaceChildren(fault);
  document.getElementById("exercise")?.setAttribute("data-mark", "");
}

// copyFacts gives the parts of the page that stay what an answer says of them.
function copyFacts(fragment: DocumentFragment): void {
  for (const from of fragment.querySelectorAll("[data-facts-of]")) {
    const to = document.getElementById(from.getAttribute("data-facts-of") ?? "");
    for (const { name, value } of from.attributes) {
      if (name !== "data-facts-of" && to?.getAttribute(name) !== value) to?.setAttribute(name, value);
    }
  }
}

let listener = () => {};

// receive shows the answer to a request. The address changes when the new
// picture is on the screen, which it would hold up.
function receive(xhr: XMLHttpRequest, { turn, edits: since, how }: Asking): void {
  if (turn < answered) return;
  answered = turn;
  if (xhr.status >= 400) return tell(xhr.responseText);
  const now = xhr.getResponseHeader("Heddle-Address");
  if (now && document.getElementById("nothing")) {
    sessionStorage.setItem("focus", mending || (document.activeElement?.id ?? ""));
    location.assign(now);
    return;
  }
  take(xhr.responseText, how.over, since);
  const isNew = now !== null && how.entry && now !== address; // a wrong word: the last good exercise keeps its address
  if (now) {
    address = now;
    restDue = true;
  }
  const title = `${document.getElementById("bench")?.dataset.title} – heddle`;
  const before = returns;
  whenPainted(() => {
    if (isNew && before === returns) keepAddress(now);
    if (now) document.title = title;
    if (restDue && turn === asked) void askForRest();
  });
  if (now) listener();
}

/** followSentence calls changed after each change of what is shown. */
export function followSentence(changed: () => void): void {
  listener = changed;
  watchPictures();
  let own = ask(onward); // the form's own request
  document.addEventListener("change", ({ target }) => target instanceof Element && target.closest("#bench") && edits++, true);
  document.body.addEventListener("htmx:configRequest", (event) => {
    asking?.abort();
    underWay++;
    const { headers, elt } = (event as CustomEvent<{ headers: Record<string, string>; elt: Element }>).detail;
    const form = elt.id === "exercise";
    if (form) own = ask(onward);
    Object.assign(headers, shownHeaders(form ? (elt.getAttribute("data-mark") ?? "") : ""));
  });
  // The answer is shown here and not by htmx, which would read and settle it
  // anew.
  document.body.addEventListener("htmx:beforeSwap", (event) => {
    const detail = (event as CustomEvent<{ xhr: XMLHttpRequest; shouldSwap: boolean }>).detail;
    detail.shouldSwap = false;
    receive(detail.xhr, own);
  });
  document.body.addEventListener("htmx:afterRequest", () => underWay--);
  for (const trouble of ["htmx:sendError", "htmx:timeout"]) document.body.addEventListener(trouble, () => tell(""));
  window.addEventListener("popstate", () => {
    address = location.pathname + location.search;
    returns++;
    answered = asked + 1; // what was asked for before is no longer wanted
    void show(address, { entry: false, over: true }).then(restoreView);
  });
  document.addEventListener("click", followLink);
  redrawWhenRoomChanges();
  focusOn(sessionStorage.getItem("focus") ?? "");
  sessionStorage.removeItem("focus");
}

/** show fetches an address of this page and shows what it changes. */
function show(wanted: string, how: Manner): Promise<void> {
  const asking = ask(how);
  return htmx.ajax("get", wanted, { target: "#exercise", handler: (_, { xhr }) => receive(xhr, asking) }).catch(() => undefined); // tell has told
}

// followLink follows a link to another form of the exercise in place. Asked for
// in the page's own name, since the link itself is among what changes.
function followLink(event: MouseEvent): void {
  const link = event.target instanceof Element ? linkAt(event.target) : null;
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  mending = link.closest(".fault")?.id.replace("fault-", "") ?? "";
  void show(link.pathname + link.search, onward).then(() => {
    if (mending) focusOn(mending);
    mending = "";
  });
}

// A place on the map is a way to its link.
function linkAt(element: Element): HTMLAnchorElement | null {
  const place = element.closest("#map .place");
  if (place) return document.querySelectorAll<HTMLAnchorElement>("#places a.here")[[...document.querySelectorAll("#map .place")].indexOf(place)] ?? null;
  return element.closest<HTMLAnchorElement>("a.here");
}

// The view's controls stand beside the pictures, outside the sentence.
function restoreView(): void {
  const query = new URLSearchParams(location.search);
  const set = (id: string, value: string) => {
    const control = document.getElementById(id);
    if (control instanceof HTMLSelectElement) control.value = value;
  };
  set("view-label", query.get("label") ?? "names");
  set("view-neck", query.get("neck") ?? "hand");
  for (const word of ["names", "tab", "line"]) {
    const box = document.getElementById("hide-" + word);
    if (box instanceof HTMLInputElement) box.checked = query.getAll("hide").includes(word);
  }
}

/** room is how many pixels wide the music may be. */
function room(): number {
  return widthOf("sheet-holder");
}

// Widths are kept until they change: to ask for one may be to lay out the page.
const widths = new Map<string, number>();
const widthWatch = new ResizeObserver((changed) => {
  for (const { target } of changed) widths.set(target.id, target.clientWidth);
});

function widthOf(id: string): number {
  const element = document.getElementById(id);
  if (!element) return 0;
  const known = widths.get(id);
  if (known !== undefined) return known;
  widthWatch.observe(element);
  widths.set(id, element.clientWidth);
  return element.clientWidth;
}

// A page is first drawn for a usual width; where there is more or less room it
// is drawn again for it.
function redrawWhenRoomChanges(): void {
  let waiting = 0;
  const redraw = () => {
    const drawnFor = Number(document.getElementById("sheet")?.dataset.room ?? 0);
    if (!drawnFor || room() === drawnFor) return; // else the next word would move what it does not change
    if (underWay) waiting = window.setTimeout(redraw, 150); // for a word, and in another room
    else void show(address, { entry: false, over: false });
  };
  const holder = document.getElementById("sheet-holder");
  const watch = new ResizeObserver(() => {
    clearTimeout(waiting);
    waiting = window.setTimeout(redraw, 150);
  });
  if (holder) watch.observe(holder); // its width changes with the letters' size too
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", redraw);
  else redraw();
}
