// The pictures on the page and other parts that an answer brings: which are
// there, which are in sight, and putting new ones in their places.

import { patch } from "./patch";

/** A Picture is the text of what stands in a place. */
export interface Picture {
  place: string; // the id of the element that holds it
  mark: string; // equal for equal pictures
  html: string;
}

const reading = document.createRange(); // reads text as what may stand in an element

let changes = 0;
let listener = () => {};

/** pictureChanges counts the pictures that were replaced. */
export function pictureChanges(): number {
  return changes;
}

/** onPictures calls back whenever pictures were replaced. */
export function onPictures(listen: () => void): void {
  listener = listen;
}

const inSight = new Set<Element>();
let sighted = false; // before, all may be in sight
const sight = new IntersectionObserver((entries) => {
  sighted = true;
  for (const { target, isIntersecting } of entries) {
    if (isIntersecting) inSight.add(target);
    else inSight.delete(target);
  }
});

/** watchPictures begins to follow which pictures are in sight. */
export function watchPictures(): void {
  for (const place of places()) sight.observe(place);
}

const places = () => document.querySelectorAll<HTMLElement>("[data-mark]:not(form)");

/** shownMarks says what is in each place, "neck=3k2 strip=9zj": an answer
 * leaves out what is there already. With atOnce it leaves out what is out of
 * sight too, which can be asked for when the rest is on the screen. Of a place
 * that has nothing yet it says nothing. */
export function shownMarks(atOnce: boolean): string {
  return [...places()]
    .filter((place) => place.dataset.mark)
    .map((place) => `${place.id}=${atOnce && sighted && !inSight.has(place) ? "later" : place.dataset.mark}`)
    .join(" ");
}

/** picturesOf parts an answer into what it says and its pictures. */
export function picturesOf(answer: string): [rest: string, pictures: Picture[]] {
  const pictures: Picture[] = [];
  const rest = answer.replace(/<script type="text\/plain" data-picture="([^"]*)" data-mark="([^"]*)">([^]*?)<\/script>/g, (_, place: string, mark: string, html: string) => {
    pictures.push({ place, mark, html });
    return "";
  });
  return [rest, pictures];
}

/** showPictures puts an answer's pictures in their places. */
export function showPictures(pictures: Picture[]): void {
  if (pictures.length === 0) return;
  makeRoomForSystems();
  for (const { place: id, mark, html } of pictures) {
    const place = document.getElementById(id);
    if (!place) continue;
    const focus = place.contains(document.activeElement) ? document.activeElement?.id : "";
    reading.selectNodeContents(place);
    patch(place, reading.createContextualFragment(html));
    place.dataset.mark = mark;
    if (focus) document.getElementById(focus)?.focus({ preventScroll: true });
    changes++;
  }
  listener();
}

// A line may come to have more systems, or fewer.
function makeRoomForSystems(): void {
  const sheet = document.getElementById("sheet");
  const wanted = Number(sheet?.dataset.systems ?? 0);
  const systems = [...(sheet?.querySelectorAll(":scope > .picture") ?? [])];
  for (const surplus of systems.slice(wanted)) {
    inSight.delete(surplus);
    sight.unobserve(surplus);
    surplus.remove();
  }
  for (let i = systems.length; i < wanted; i++) {
    const place = document.createElement("div");
    place.id = `system-${i}`;
    place.className = "picture";
    place.dataset.mark = "";
    sheet?.append(place);
    sight.observe(place);
  }
}

/** whenPainted does something when what was just shown has been painted, and a
 * little later, so as not to take the processor from it. Frames stop while a
 * page is hidden. */
export function whenPainted(act: () => void): void {
  if (document.hidden) setTimeout(act);
  else requestAnimationFrame(() => setTimeout(act, paintingMS));
}

const paintingMS = 30; // from a frame's start till it has been drawn
