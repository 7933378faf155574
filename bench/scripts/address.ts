// The address of the page is the exercise and how it sounds, and the way back to
// earlier ones.
import { linkTo } from "./downloads";
import { byId } from "./page";
import { tuneOf } from "./sounds";
import type { Transport } from "./transport";

const togetherMS = 2000; // steps of the tempo so close together are one

let stepped = -Infinity; // when the tempo alone changed last
let step = stepShown(); // which step of the history the page shows
let newest = step;

addEventListener("popstate", () => {
  stepped = -Infinity;
  step = stepShown();
  showSteps();
});

function stepShown(): number {
  const state: unknown = history.state;
  return typeof state === "number" ? state : 0;
}

/** keepAddress gives the page an address. It adds a step to go back from, except
 * that quick changes of the tempo are one step. */
export function keepAddress(address: string): void {
  const tempo = tuneOf(location.search) === tuneOf(address.slice(1));
  const at = performance.now();
  if (tempo && at - stepped < togetherMS) history.replaceState(step, "", linkTo(address));
  else {
    newest = ++step;
    history.pushState(step, "", linkTo(address));
  }
  stepped = tempo ? at : -Infinity;
  showSteps();
}

function showSteps(): void {
  const undo = byId("undo", HTMLButtonElement);
  const redo = byId("redo", HTMLButtonElement);
  if (undo) undo.disabled = step === 0;
  if (redo) redo.disabled = step === newest;
}

/** offerSteps makes the buttons that undo, redo and copy the link work, and keeps
 * what is chosen for the sound in the address. */
export function offerSteps(transport: Transport): void {
  byId("intro-close", HTMLButtonElement)?.addEventListener("click", () => document.getElementById("intro")?.remove());
  byId("undo", HTMLButtonElement)?.addEventListener("click", () => history.back());
  byId("redo", HTMLButtonElement)?.addEventListener("click", () => history.forward());
  byId("copy-link", HTMLButtonElement)?.addEventListener("click", () => void copyLink(transport));
  document.getElementById("transport")?.addEventListener("change", () => history.replaceState(step, "", linkTo(location.href)));
  showSteps();
}

async function copyLink(transport: Transport): Promise<void> {
  const { range } = transport;
  const link = new URL(linkTo(location.href));
  link.hash = range ? `notes=${range.first + 1}-${range.last + 1}` : "";
  const copied = document.getElementById("copied");
  try {
    await navigator.clipboard.writeText(link.href);
    if (copied) copied.textContent = "Copied.";
  } catch {
    if (copied) copied.textContent = link.href; // to be copied by hand
  }
}
