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

let restoring = false; // the browser went back or forward

const reading = document.createRange(); // reads text as what may stand on the page

// take shows what an answer says.
function take(answer: string): void {
  const [rest, pictures] = picturesOf(answer);
  const says = reading.createContextualFragment(rest);
  copyFacts(says);
  showPictures(pictures);
  for (const id of ["exercise", "rare"]) {
    const from = document.getElementById(id);
    const to = says.getElementById(id);
    if (from && to) become(from, to); // else it looks as it should
  }
}

// become changes a part of the form in place, leaving alone what is equal, what
// has the focus, and which parts a person has opened.
function become(from: Element, to: Element): void {
  const held = from.contains(document.activeElement) ? document.activeElement?.id : "";
  Idiomorph.morph(from, to, {
    morphStyle: "outerHTML",
    ignoreActiveValue: !restoring,
    callbacks: {
      beforeAttributeUpdated: (name: string, element: Element) => !(name === "open" && element instanceof HTMLDetailsElement),
    },
  });
  if (held && (document.activeElement?.id !== held || closedAround(document.activeElement))) focusOn(held);
}

// focusOn gives a control the focus; what opens it, where it is out of sight.
function focusOn(id: string): void {
  const control = document.getElementById(id);
  (closedAround(control)?.querySelector("summary") ?? control)?.focus();
}

const closedAround = (element: Element | null) => element?.closest("details:not([open])");

let asking: AbortController | null = null; // for what was out of sight

// askForRest fetches what an answer left out because it was out of sight.
async function askForRest(address: string): Promise<void> {
  asking?.abort();
  asking = new AbortController();
  const { signal } = asking;
  try {
    const answer = await fetch(address, { signal, headers: { "HX-Request": "true", ...shownHeaders("later") } });
    if (!answer.ok) throw new Error(answer.statusText);
    const text = await answer.text();
    if (!signal.aborted) take(text);
  } catch {
    if (!signal.aborted) tellOfSilence();
  }
}

// shownHeaders tell how much room there is and what the page shows; of its
// form, only where that itself asks.
function shownHeaders(form: string): Record<string, string> {
  return { [widthHeader]: `${room()} ${widthOf("neck")}`, [shownHeader]: `exercise=${form} ${shownMarks(form !== "later")}` };
}

// tellOfSilence says that no answer came, until the next one does.
function tellOfSilence(): void {
  const fault = document.createElement("p");
  fault.className = "fault";
  fault.textContent = "heddle does not answer: what is shown is the last it sent. Is it still running?";
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

/** followSentence calls changed after each change of what is shown. */
export function followSentence(changed: () => void): void {
  watchPictures();
  document.body.addEventListener("htmx:configRequest", (event) => {
    asking?.abort();
    const { headers, elt } = (event as CustomEvent<{ headers: Record<string, string>; elt: Element }>).detail;
    Object.assign(headers, shownHeaders(elt.id === "exercise" ? (elt.getAttribute("data-mark") ?? "") : ""));
  });
  // The answer is shown here and not by htmx, which would read and settle it
  // anew. The address changes when the new picture is on the screen, which it
  // would hold up.
  document.body.addEventListener("htmx:beforeSwap", (event) => {
    const detail = (event as CustomEvent<{ xhr: XMLHttpRequest; shouldSwap: boolean }>).detail;
    if (!detail.shouldSwap) return;
    detail.shouldSwap = false;
    const address = detail.xhr.getResponseHeader("Heddle-Address");
    if (address && document.getElementById("nothing")) {
      sessionStorage.setItem("focus", mending || (document.activeElement?.id ?? ""));
      location.assign(address);
      return;
    }
    take(detail.xhr.responseText);
    if (!address) return; // a wrong word: the last good exercise keeps its address
    const title = `${document.getElementById("bench")?.dataset.title} – heddle`;
    const isNew = !restoring && address !== location.pathname + location.search;
    whenPainted(() => {
      if (isNew) keepAddress(address);
      document.title = title;
      void askForRest(address);
    });
    changed();
  });
  for (const trouble of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) document.body.addEventListener(trouble, tellOfSilence);
  window.addEventListener("popstate", () => void restore());
  document.addEventListener("click", followLink);
  redrawWhenRoomChanges();
  focusOn(sessionStorage.getItem("focus") ?? "");
  sessionStorage.removeItem("focus");
}

// followLink follows a link to another form of the exercise in place. Asked for
// in the page's own name, since the link itself is among what changes.
function followLink(event: MouseEvent): void {
  const link = event.target instanceof Element ? linkAt(event.target) : null;
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  mending = link.closest(".fault")?.id.replace("fault-", "") ?? "";
  void show(link.pathname + link.search).then(() => {
    if (mending) focusOn(mending);
    mending = "";
  });
}

let mending = ""; // the control of the wrong word that a link puts right

// A place on the map is a way to its link.
function linkAt(element: Element): HTMLAnchorElement | null {
  const place = element.closest("#map .place");
  if (place) return document.querySelectorAll<HTMLAnchorElement>("#places a.here")[[...document.querySelectorAll("#map .place")].indexOf(place)] ?? null;
  return element.closest<HTMLAnchorElement>("a.here");
}

/** show fetches an address of this page and shows what it changes. */
function show(address: string): Promise<void> {
  return htmx.ajax("get", address, { target: "#exercise", swap: "none" });
}

/** restore fetches what the address says, after the browser changed it. */
async function restore(): Promise<void> {
  restoring = true;
  try {
    await show(location.pathname + location.search);
    restoreView();
  } finally {
    restoring = false;
  }
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
  const redraw = () => {
    const drawnFor = Number(document.getElementById("sheet")?.dataset.room ?? 0);
    if (!drawnFor || room() === drawnFor) return; // else the next word would move what it does not change
    restoring = true;
    void show(location.pathname + location.search).then(() => {
      restoring = false;
    });
  };
  let waiting = 0;
  const holder = document.getElementById("sheet-holder");
  const watch = new ResizeObserver(() => {
    clearTimeout(waiting);
    waiting = window.setTimeout(redraw, 150);
  });
  if (holder) watch.observe(holder); // its width changes with the letters' size too
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", redraw);
  else redraw();
}
