// The input's level and where in the line the player is.
import { byId } from "./page";

const fallDB = 1.5; // a block, so that the eye can follow
const faintDB = -60;

/** A LevelMeter shows the peak of what comes in. */
export class LevelMeter {
  private shown = faintDB;
  private clipped = false;

  show(on: boolean): void {
    this.shown = faintDB;
    this.clipped = false;
    const box = byId("take-meter-box", HTMLElement);
    if (box) box.hidden = !on;
  }

  /** feed takes in a block and reports whether one was ever too loud. */
  feed(samples: Float32Array): boolean {
    let peak = 0;
    for (const x of samples) peak = Math.max(peak, Math.abs(x));
    const level = peak > 0 ? Math.max(faintDB, 20 * Math.log10(peak)) : faintDB;
    this.shown = Math.max(level, this.shown - fallDB);
    const meter = byId("take-meter", HTMLMeterElement);
    if (meter) meter.value = this.shown;
    this.clipped ||= peak >= 0.999;
    return this.clipped;
  }
}

/** clockText says which bar a time after the first bar line is in, or before
 * it how many beats are left. */
export function clockText(afterS: number, barS: number, beats: number): string {
  if (afterS < 0) return `in ${Math.ceil((-afterS / barS) * beats)}`;
  return `bar ${Math.floor(afterS / barS) + 1}`;
}
