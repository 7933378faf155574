// Keys that work anywhere on the page except in a control that uses them.
import { takesKey } from "./keys";
import { byId, checked } from "./page";
import type { Ranges } from "./ranges";
import { remember, remembered } from "./settings";
import type { Tempo } from "./tempo";
import type { Transport } from "./transport";

const storedAs = "heddle-keys";

export function readKeys(transport: Transport, tempo: Tempo, ranges: Ranges): void {
  // Single keys can be turned off (WCAG 2.1.4).
  const box = byId("keys", HTMLInputElement);
  if (box) box.checked = remembered(storedAs) !== "off";
  box?.addEventListener("change", () => remember(storedAs, box.checked ? "on" : "off"));
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Escape") {
      if (!closeMenu() && transport.range) ranges.clear();
      return;
    }
    // Controls of the transport that take no spaces leave the space bar to it.
    const left = event.key === " " && event.target instanceof Element && event.target.matches("#transport :is(select, [type=number])");
    if (!left && takesKey(event.target, event.key)) return;
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

/** closeMenu closes an open menu and gives the focus back to what opened it. */
function closeMenu(): boolean {
  const menu = document.querySelector("details.menu[open]");
  if (!menu) return false;
  menu.removeAttribute("open");
  menu.querySelector("summary")?.focus();
  return true;
}
