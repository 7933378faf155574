// The regions of the page: the parts that an answer can change, each an element
// with an id and a mark that is equal for equal contents.
import { patch } from "./patch";

/** A Region is new content for the element with its id. */
export interface Region {
  id: string;
  mark: string;
  html: string;
}

/** shownMarks says what the page shows, "neck=3k2 strip=9zj": an answer leaves
 * out what is there already. */
export function shownMarks(): string {
  return [...document.querySelectorAll<HTMLElement>("[data-mark]")].map(({ id, dataset }) => `${id}=${dataset.mark}`).join(" ");
}

/** inSight tells whether a region is on the screen. */
export function inSight({ id }: Region): boolean {
  const box = document.getElementById(id)?.getBoundingClientRect();
  return !box || (box.top < innerHeight && box.bottom > 0);
}

const reading = document.createRange(); // reads text as what may be in an element

/** putRegion puts new content in its place. Equal parts are kept, and so is the
 * focus. */
export function putRegion({ id, mark, html }: Region): void {
  const place = document.getElementById(id);
  if (!place) return;
  const focus = place.contains(document.activeElement) ? document.activeElement?.id : "";
  reading.selectNodeContents(place);
  patch(place, reading.createContextualFragment(html));
  place.dataset.mark = mark;
  if (focus && document.activeElement?.id !== focus) document.getElementById(focus)?.focus({ preventScroll: true });
}

/** makeRoom gives the sheet an element for each system of the line. */
export function makeRoom(systems: number): void {
  const sheet = document.getElementById("sheet");
  const places = [...(sheet?.querySelectorAll(":scope > .picture") ?? [])];
  for (const surplus of places.slice(systems)) surplus.remove();
  for (let i = places.length; i < systems; i++) {
    const place = document.createElement("div");
    place.id = `system-${i}`;
    place.className = "picture";
    place.dataset.mark = "";
    sheet?.append(place);
  }
}

/** whenPainted does something when what was just shown has been painted, and a
 * little later, so as not to take the processor from it. Frames stop while a
 * page is hidden. */
export function whenPainted(act: () => void): void {
  if (document.hidden) setTimeout(act);
  else requestAnimationFrame(() => setTimeout(act, paintingMS));
}

const paintingMS = 30; // from a frame's start until it has been drawn
