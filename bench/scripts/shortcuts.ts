// Keys that work anywhere on the page but in a control that takes them.
import type { Ranges } from "./ranges";
import type { Tempo } from "./tempo";
import type { Transport } from "./transport";

export function readKeys(transport: Transport, tempo: Tempo, ranges: Ranges): void {
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Escape") {
      if (!closeMenu() && transport.range) ranges.clear();
      return;
    }
    if (takesKeys(event.target, event.key)) return;
    switch (event.key) {
      case " ":
        event.preventDefault();
        if (!event.repeat) void transport.toggle();
        break;
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

/** takesKeys tells whether a control wants a key for itself. */
function takesKeys(target: EventTarget | null, key: string): boolean {
  if (!(target instanceof HTMLElement)) return false;
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
