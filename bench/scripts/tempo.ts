// The tempo by slider, by step and by tapping. Typing it is part of the
// sentence, and all of these write it there.
import { byId, shown } from "./page";

export interface Tempo {
  change(by: number): void;
  tap(): void;
  redraw(): void;
}

const lowest = 20;
const highest = 400;
const tapsKept = 5;
const tapGapMS = 2500; // a longer one begins anew

export function setTempo(): Tempo {
  const slide = byId("tempo-slide", HTMLInputElement);
  const now = byId("tempo-now", HTMLOutputElement);
  let wanted = shown().tempo;
  let sending = 0;
  let taps: number[] = [];

  const show = (tempo: number) => {
    if (now) now.textContent = String(tempo);
    if (slide && document.activeElement !== slide) slide.value = String(tempo);
  };
  const send = () => {
    const word = byId("word-tempo", HTMLInputElement);
    if (!word) return;
    word.value = String(wanted);
    word.dispatchEvent(new Event("change", { bubbles: true }));
  };
  // Held keys and quick taps send only where they come to rest.
  const set = (tempo: number, restMS: number) => {
    wanted = Math.min(highest, Math.max(lowest, Math.round(tempo)));
    show(wanted);
    if (slide) slide.value = String(wanted);
    clearTimeout(sending);
    sending = window.setTimeout(send, restMS);
  };

  slide?.addEventListener("input", () => show(Number(slide.value)));
  slide?.addEventListener("change", () => set(Number(slide.value), 0));
  const change = (by: number) => set(wanted + by, 120);
  const tap = () => {
    const at = performance.now();
    if (at - (taps[taps.length - 1] ?? -Infinity) > tapGapMS) taps = [];
    taps = [...taps, at].slice(-tapsKept);
    const first = taps[0];
    if (taps.length > 1 && first !== undefined) set((60000 * (taps.length - 1)) / (at - first), 600);
  };
  byId("slower", HTMLButtonElement)?.addEventListener("click", () => change(-2));
  byId("faster", HTMLButtonElement)?.addEventListener("click", () => change(2));
  byId("tap", HTMLButtonElement)?.addEventListener("click", tap);
  return {
    change,
    tap,
    redraw: () => {
      wanted = shown().tempo;
      show(wanted);
    },
  };
}
