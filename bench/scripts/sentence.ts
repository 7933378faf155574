// The sentence: a changed word fetches what it changes, and the address
// follows. Focus stays where it is, and nothing moves but what changed.
import htmx from "./vendor/htmx";
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

// morph changes a part of the page into another, leaving alone what is equal,
// what has the focus, and which parts a person has opened.
htmx.defineExtension("morph", {
  isInlineSwap: (style: string) => style === "morph",
  handleSwap: (style: string, target: Node, fragment: Node) => {
    if (style !== "morph" || !(fragment instanceof DocumentFragment) || !(target instanceof Element)) return false;
    const to = fragment.querySelector("#" + target.id);
    if (!to) return false;
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
  transformResponse: (text: string) => text,
  encodeParameters: () => null,
});

/** followSentence calls changed after each change of what is shown. */
export function followSentence(changed: () => void): void {
  document.body.setAttribute("hx-ext", "morph");
  document.body.addEventListener("htmx:configRequest", (event) => {
    const detail = (event as CustomEvent<{ headers: Record<string, string> }>).detail;
    detail.headers[widthHeader] = `${room()} ${widthOf("neck")}`;
  });
  document.body.addEventListener("htmx:afterRequest", (event) => {
    const { xhr, failed } = (event as CustomEvent<{ xhr: XMLHttpRequest; failed: boolean }>).detail;
    if (failed) return;
    const address = xhr.getResponseHeader("Heddle-Address");
    if (!address) return; // a wrong word: the last good exercise keeps its address
    if (document.getElementById("nothing")) {
      location.assign(address);
      return;
    }
    if (!restoring && address !== location.pathname + location.search) history.pushState(null, "", address);
    changed();
  });
  window.addEventListener("popstate", () => void restore(changed));
  redrawWhenRoomChanges();
}

/** restore fetches what the address says, after the browser changed it. */
async function restore(changed: () => void): Promise<void> {
  restoring = true;
  try {
    await htmx.ajax("get", location.pathname + location.search, { target: "#exercise", swap: "morph" as "outerHTML" });
    restoreView();
  } finally {
    restoring = false;
    changed();
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
    void htmx.ajax("get", location.pathname + location.search, { target: "#exercise", swap: "morph" as "outerHTML" }).then(() => {
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
