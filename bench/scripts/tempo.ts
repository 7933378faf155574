// The tempo by slider, by step and by tapping. All of them write it into the
// sentence, where it can also be typed.
import { byId, checked, say, shown } from "./page";

export interface Tempo {
  change(by: number): void;
  tap(): void;
  redraw(): void;
  hear(tempo: number): void;
  refused(reason: string): void;
}

const tapsKept = 5;
const tapGapMS = 2500; // after a longer gap the count starts again

export function setTempo(): Tempo {
  const slide = byId("tempo-slide", HTMLInputElement);
  const now = byId("tempo-now", HTMLOutputElement);
  let wanted = shown().tempo;
  let sending = 0;
  let waiting = false; // for the answer to the tempo wanted
  let taps: number[] = [];

  const show = (tempo: number) => {
    if (now && now.textContent !== String(tempo)) now.textContent = String(tempo);
    if (slide && document.activeElement !== slide) slide.value = String(tempo);
  };
  // On the ladder the tempo shown is the one heard, but a tempo that was just asked
  // for stays on show.
  const hear = (tempo: number) => {
    if (!waiting) show(checked("ladder") ? tempo : shown().tempo);
  };
  const redraw = () => {
    waiting = false;
    wanted = shown().tempo;
    show(wanted);
  };
  const send = () => {
    const word = byId("word-tempo", HTMLInputElement);
    if (!word) return;
    word.value = String(wanted);
    word.dispatchEvent(new Event("change", { bubbles: true }));
  };
  // Held keys and quick taps send only where they come to rest.
  const set = (tempo: number, restMS: number) => {
    wanted = Math.min(Number(slide?.max), Math.max(Number(slide?.min), Math.round(tempo)));
    waiting = true;
    show(wanted);
    if (slide) slide.value = String(wanted);
    clearTimeout(sending);
    sending = window.setTimeout(send, restMS);
  };

  // Where the exercise was not taken up, because another word of the sentence is
  // wrong or nothing answers, the tempo stays what it was.
  const refused = (reason: string) => {
    if (!waiting) return;
    const word = byId("word-tempo", HTMLInputElement);
    if (word && word.value === String(wanted)) word.value = String(shown().tempo);
    redraw();
    if (slide) slide.value = String(wanted);
    if (reason) say(`The tempo stays at ${wanted}: fix the marked word first.`);
  };

  slide?.addEventListener("input", () => {
    waiting = Number(slide.value) !== wanted;
    show(Number(slide.value));
  });
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
  return { change, tap, redraw, hear, refused };
}
