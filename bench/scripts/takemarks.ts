// The verdicts on the sheet while the take is played: a sign under each note,
// with a needle for its timing, and a tint behind it.
import { cover, smoothly } from "./page";
import type { Mark } from "./takesocket";

const svgSpace = "http://www.w3.org/2000/svg";
const needlePXPerMS = 0.12;
const needleReach = 9;
const signPX = { least: 13, most: 22 }; // wide

// The signs, as in the picture of the take.
const strokes: Record<Mark["verdict"], string> = {
  right: "m-4 0 3 3.5 5-7.5",
  wrong: "m-3.5-3.5 7 7m0-7-7 7",
  missed: "m-3.8 0a3.8 3.8 0 1 0 7.6 0a3.8 3.8 0 1 0-7.6 0",
};

interface Place {
  left: number;
  width: number;
  top: number;
  height: number;
}

/** LiveMarks shows verdicts over the sheet. */
export class LiveMarks {
  #marks = new Map<number, Mark>();
  #places = new Map<number, Place>();
  #layer: HTMLElement | null = null;

  show(marks: Mark[]): void {
    for (const mark of marks) {
      this.#marks.set(mark.index, mark);
      this.#put(mark);
    }
  }

  clear(): void {
    this.#marks.clear();
    this.redraw();
  }

  /** redraw finds the notes again after the sheet was redrawn. */
  redraw(): void {
    this.#layer?.remove();
    this.#layer = null;
    this.#places = placesOn(document.getElementById("sheet"));
    for (const mark of this.#marks.values()) this.#put(mark);
  }

  /** keepInSight scrolls to the system that a note is in. */
  keepInSight(note: number): void {
    const place = this.#places.get(note);
    const sheet = document.getElementById("sheet");
    if (!place || !sheet) return;
    const top = sheet.getBoundingClientRect().top + place.top;
    const bottom = document.getElementById("take-bar")?.getBoundingClientRect().top ?? innerHeight;
    if (top >= 0 && top + place.height + signPX.most <= bottom) return;
    const middle = Math.max(0, (bottom - place.height) / 2);
    window.scrollBy({ top: top - middle, behavior: smoothly() });
  }

  #put(mark: Mark): void {
    const sheet = document.getElementById("sheet");
    const place = this.#places.get(mark.index);
    if (!sheet || !place) return;
    if (!this.#layer) {
      this.#layer = document.createElement("div");
      this.#layer.className = "marks";
      this.#layer.setAttribute("aria-hidden", "true");
      sheet.append(this.#layer);
    }
    const column = document.createElement("div");
    column.className = "verdict " + mark.verdict;
    column.dataset.index = String(mark.index);
    column.dataset.verdict = mark.verdict;
    cover(column, place.left, place.top, place.width, place.height);
    const svg = sign(mark);
    svg.style.width = `${Math.max(signPX.least, Math.min(signPX.most, place.width * 1.1))}px`;
    column.append(svg);
    this.#layer.querySelector(`[data-index="${mark.index}"]`)?.remove();
    this.#layer.append(column);
  }
}

function sign(mark: Mark): SVGElement {
  const svg = document.createElementNS(svgSpace, "svg");
  svg.setAttribute("viewBox", "-10 -7 20 18");
  const path = document.createElementNS(svgSpace, "path");
  path.setAttribute("class", "sign " + mark.verdict);
  path.setAttribute("d", "M0 0" + strokes[mark.verdict]);
  svg.append(path);
  if (mark.timing_ms !== undefined) {
    const by = Math.max(-needleReach, Math.min(needleReach, mark.timing_ms * needlePXPerMS));
    const needle = document.createElementNS(svgSpace, "path");
    needle.setAttribute("class", "needle");
    needle.setAttribute("d", `M0 6v4M0 8h${by}`);
    svg.append(needle);
  }
  return svg;
}

/** placesOn finds each note's column on the sheet. */
function placesOn(sheet: HTMLElement | null): Map<number, Place> {
  const places = new Map<number, Place>();
  if (!sheet) return places;
  const home = sheet.getBoundingClientRect();
  for (const system of sheet.querySelectorAll(".system")) {
    const box = system.getBoundingClientRect();
    const columns = new Map<number, { left: number; right: number }>();
    for (const element of system.querySelectorAll(".note")) {
      const note = Number(element.getAttribute("data-note"));
      const at = element.getBoundingClientRect();
      const column = columns.get(note);
      columns.set(note, { left: Math.min(column?.left ?? Infinity, at.left), right: Math.max(column?.right ?? -Infinity, at.right) });
    }
    for (const [note, { left, right }] of columns) {
      places.set(note, { left: left - home.left - 2, width: right - left + 4, top: box.top - home.top, height: box.height });
    }
  }
  return places;
}
