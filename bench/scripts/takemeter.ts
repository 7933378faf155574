// The input's level and where in the line the player is.
import { byId, hide } from "./page";

const fallDB = 1.5; // a block, so that the eye can follow
const faintDB = -60;

/** A LevelMeter shows the peak of what comes in. */
export class LevelMeter {
  #shown = faintDB;
  /** tooLoud tells whether a sample was ever at full scale. */
  tooLoud = false;
  /** faint tells whether all so far was softer than what can be marked. */
  faint = true;

  show(on: boolean): void {
    this.#shown = faintDB;
    this.tooLoud = false;
    this.faint = true;
    hide("take-meter-box", !on);
  }

  /** feed takes in a block. */
  feed(samples: Float32Array): void {
    let peak = 0;
    for (const x of samples) peak = Math.max(peak, Math.abs(x));
    const level = peak > 0 ? Math.max(faintDB, 20 * Math.log10(peak)) : faintDB;
    this.#shown = Math.max(level, this.#shown - fallDB);
    const meter = byId("take-meter", HTMLMeterElement);
    if (meter) meter.value = this.#shown;
    this.tooLoud ||= peak >= 0.999;
    this.faint &&= level <= faintDB;
  }
}

/** clockText says which bar a time after the first bar line is in, or before
 * it how many beats are left. */
export function clockText(afterS: number, barS: number, beats: number): string {
  if (afterS < 0) return `in ${Math.ceil((-afterS / barS) * beats)}`;
  return `bar ${Math.floor(afterS / barS) + 1}`;
}
