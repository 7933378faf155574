// Keeping the sounding note in sight where the line is longer than the screen,
// while nobody is doing anything else there.
import { smoothly } from "./page";

const patienceMS = 4000; // after a person scrolls, until the music is followed again
const longestOwnMS = 1500; // more than a browser takes to scroll smoothly
const marginPX = 12; // between what is followed and the edge

export class Following {
  #leftUntil = 0; // the person scrolled
  #ownUntil = new Map<EventTarget, number>(); // what we scroll ourselves

  constructor() {
    const byHand = () => {
      this.#ownUntil.clear();
      this.#leftUntil = performance.now() + patienceMS;
    };
    for (const type of ["wheel", "touchmove"]) addEventListener(type, byHand, { passive: true });
    // Keys, the scroll bar and a focus that went out of sight scroll too.
    document.addEventListener("scroll", ({ target }) => target && performance.now() > (this.#ownUntil.get(target) ?? 0) && byHand(), { capture: true, passive: true });
    document.addEventListener("scrollend", ({ target }) => target && this.#ownUntil.delete(target), true);
  }

  /** begin starts following again, whatever was done before. */
  begin(): void {
    this.#leftUntil = 0;
  }

  /** follow scrolls the elements of a note into sight, no farther than needed. */
  follow(elements: Element[]): void {
    if (performance.now() < this.#leftUntil || elsewhere()) return;
    const strip = document.getElementById("strip");
    const figure = elements.find((element) => element.closest("#strip"));
    if (strip && figure && strip.scrollWidth > strip.clientWidth) {
      const at = figure.getBoundingClientRect().left - strip.getBoundingClientRect().left;
      if (at < 0 || at > strip.clientWidth * 0.8) this.#scroll(strip, at - strip.clientWidth * 0.2, 0);
    }
    const note = elements.find((element) => element.closest("#sheet"));
    if (!note) return;
    const bottom = Math.min(innerHeight, document.getElementById("transport")?.getBoundingClientRect().top ?? innerHeight) - marginPX; // on a low screen the bar is below the page
    const boxes = [note.closest(".system") ?? note, note].map((element) => element.getBoundingClientRect());
    const box = boxes.find(({ height }) => height <= bottom - marginPX); // a system, or of a tall one the note
    if (!box) return;
    const by = box.top < marginPX ? box.top - marginPX : Math.max(0, box.bottom - bottom);
    if (by) this.#scroll(document, 0, by);
  }

  #scroll(what: Element | Document, left: number, top: number): void {
    this.#ownUntil.set(what, performance.now() + longestOwnMS);
    (what instanceof Element ? what : window).scrollBy({ left, top, behavior: smoothly() });
  }
}

// elsewhere tells whether the focus is on a control that has nothing to do with
// playing.
function elsewhere(): boolean {
  const focus = document.activeElement;
  return focus !== null && focus !== document.body && !focus.closest("#transport, #sheet");
}
