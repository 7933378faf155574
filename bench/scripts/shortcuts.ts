// Keys that work anywhere on the page except in a control that uses them.
import { byId, checked } from "./page";
import type { Ranges } from "./ranges";
import type { Tempo } from "./tempo";
import type { Transport } from "./transport";

const kept = "heddle-keys"; // where the browser remembers that they are off

export function readKeys(transport: Transport, tempo: Tempo, ranges: Ranges): void {
  remember();
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Escape") {
      if (!closeMenu() && transport.range) ranges.clear();
      return;
    }
    if (takesKeys(event.target, event.key)) return;
    if (event.key === " ") {
      event.preventDefault();
      if (!event.repeat) void transport.toggle();
      return;
    }
    if (!checked("keys")) return;
    switch (event.key.toLowerCase()) {
      case "-":
        tempo.change(-2);
        break;
      case "+":
      case "=":
        tempo.change(2);
        break;
      case "t":
        if (!event.repeat) tempo.tap();
        break;
      case "l":
        ranges.focus();
        break;
    }
  });
  document.addEventListener("click", (event) => {
    for (const menu of document.querySelectorAll("details.menu[open]")) {
      if (event.target instanceof Node && !menu.contains(event.target)) menu.removeAttribute("open");
    }
  });
}

// remember stores in the browser whether single keys are on (WCAG 2.1.4). They
// are on in a browser that stores nothing.
function remember(): void {
  const box = byId("keys", HTMLInputElement);
  if (!box) return;
  try {
    box.checked = localStorage.getItem(kept) !== "off";
    box.addEventListener("change", () => localStorage.setItem(kept, box.checked ? "on" : "off"));
  } catch {
    box.checked = true;
  }
}

/** takesKeys tells whether a control uses a key itself. Controls of the transport
 * that take no spaces leave the space bar to it. */
function takesKeys(target: EventTarget | null, key: string): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (key === " " && target.matches("#transport :is(select, [type=number])")) return false;
  if (target instanceof HTMLInputElement) {
    if (target.type === "checkbox") return key === " ";
    return target.type !== "range";
  }
  if (target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable) return true;
  return key === " " && target.closest("button, summary, a") !== null;
}

/** closeMenu closes an open menu and gives the focus back to what opened it. */
function closeMenu(): boolean {
  const menu = document.querySelector("details.menu[open]");
  if (!menu) return false;
  menu.removeAttribute("open");
  menu.querySelector("summary")?.focus();
  return true;
}
