// The sentence: a changed word fetches what it changes, and the address
// follows. Focus stays where it is, and nothing moves but what changed.
import htmx from "./vendor/htmx";
import { lookAtPage, type Picture, picturesOf, showPictures, whenShown } from "./pictures";
import { Idiomorph } from "./vendor/idiomorph";

const widthHeader = "Heddle-Width";

// The page's scripts may not be strings, styles may not stand inline, and the
// address is kept below.
htmx.config.allowEval = false;
htmx.config.includeIndicatorStyles = false;
htmx.config.historyEnabled = false;
htmx.config.defaultSettleDelay = 0;
htmx.config.defaultSwapDelay = 0;
htmx.config.selfRequestsOnly = true;

let restoring = false; // the browser went back or forward

let pictures: Picture[] = []; // of the answer that is being shown

// morph changes a part of the page into another, leaving alone what is equal,
// what has the focus, and which parts a person has opened. Pictures are taken
// out of an answer first, so that each is read when it is shown.
htmx.defineExtension("morph", {
  isInlineSwap: (style: string) => style === "morph",
  transformResponse: (text: string) => {
    const [rest, found] = picturesOf(text);
    pictures = found;
    return rest;
  },
  handleSwap: (style: string, target: Node, fragment: Node) => {
    if (style !== "morph" || !(fragment instanceof DocumentFragment) || !(target instanceof Element)) return false;
    const to = fragment.querySelector("#" + target.id);
    if (!to) return false;
    copyFacts(fragment);
    showPictures(pictures);
    const morphed = Idiomorph.morph(target, to, {
      morphStyle: "outerHTML",
      ignoreActiveValue: !restoring,
      callbacks: {
        beforeAttributeUpdated: (name: string, element: Element) => !(name === "open" && element instanceof HTMLDetailsElement),
      },
    });
    return morphed.filter((node): node is Element => node instanceof Element);
  },
  init: () => {},
  getSelectors: () => null,
  onEvent: () => true,
  encodeParameters: () => null,
});

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
  document.body.setAttribute("hx-ext", "morph");
  document.body.addEventListener("htmx:configRequest", (event) => {
    const detail = (event as CustomEvent<{ headers: Record<string, string> }>).detail;
    detail.headers[widthHeader] = `${room()} ${widthOf("neck")}`;
    queueMicrotask(lookAtPage); // when the request has left
  });
  // The address changes when the new picture is on the screen, which it would
  // hold up.
  document.body.addEventListener("htmx:beforeSwap", (event) => {
    const { xhr } = (event as CustomEvent<{ xhr: XMLHttpRequest }>).detail;
    const address = xhr.getResponseHeader("Heddle-Address");
    if (!address) return; // a wrong word: the last good exercise keeps its address
    if (document.getElementById("nothing")) {
      event.preventDefault();
      location.assign(address);
    } else if (!restoring && address !== location.pathname + location.search) {
      whenShown(() => history.pushState(null, "", address));
    }
  });
  document.body.addEventListener("htmx:afterSwap", (event) => {
    const { xhr } = (event as CustomEvent<{ xhr: XMLHttpRequest }>).detail;
    if (xhr.getResponseHeader("Heddle-Address")) changed();
  });
  window.addEventListener("popstate", () => void restore());
  document.addEventListener("click", followLink);
  redrawWhenRoomChanges();
}

// followLink follows a link to another form of the exercise in place. Asked for
// in the page's own name, since the link itself is among what changes.
function followLink(event: MouseEvent): void {
  const link = event.target instanceof Element ? linkAt(event.target) : null;
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  void show(link.pathname + link.search);
}

// A place on the map is a way to its link.
function linkAt(element: Element): HTMLAnchorElement | null {
  const place = element.closest("#map .place");
  if (place) return document.querySelectorAll<HTMLAnchorElement>("#places a.here")[[...document.querySelectorAll("#map .place")].indexOf(place)] ?? null;
  return element.closest<HTMLAnchorElement>("a.here");
}

/** show fetches an address of this page and shows what it changes. */
function show(address: string): Promise<void> {
  return htmx.ajax("get", address, { target: "#exercise", swap: "morph" as "outerHTML" });
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

function widthOf(id: string): number {
  return Math.floor(document.getElementById(id)?.clientWidth ?? 0);
}

// A page is first drawn for a usual width; where there is more or less room it
// is drawn again for it.
function redrawWhenRoomChanges(): void {
  const redraw = () => {
    const drawnFor = Number(document.getElementById("sheet")?.dataset.room ?? 0);
    if (!drawnFor || Math.abs(room() - drawnFor) < 40) return;
    restoring = true;
    void show(location.pathname + location.search).then(() => {
      restoring = false;
    });
  };
  let waiting = 0;
  window.addEventListener("resize", () => {
    clearTimeout(waiting);
    waiting = window.setTimeout(redraw, 150);
  });
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", redraw);
  else redraw();
}
