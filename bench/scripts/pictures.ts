// Putting new pictures in the places of old ones: at once what the eye is on,
// what else is in sight a frame later, and then the rest.
import { Idiomorph } from "./vendor/idiomorph";

/** A Picture comes as text, which is read when its turn comes. */
export interface Picture {
  place: string; // the id of the element that holds it
  mark: string; // equal for equal pictures; none for what is always new
  html: string;
}

const reading = document.createRange(); // reads text as what may stand in an element
const mostly = 0.5; // how much of a picture is seen when the eye may be on it

let looks = new Map<string, number>();
let steps: Picture[][] = []; // still to be shown, one in a frame
let after: (() => void)[] = []; // to be done when the first of them are on the screen
let walking = false;
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

/** lookAtPage notes how much of each picture is in sight. It is called while an
 * answer is on its way, when there is time and nothing to lay out. */
export function lookAtPage(): void {
  const bottom = document.getElementById("transport")?.getBoundingClientRect().top ?? innerHeight;
  looks = new Map();
  for (const place of document.querySelectorAll("[data-mark]")) {
    if (place.closest("details:not([open])")) continue; // to measure it would be to lay it out
    const box = place.getBoundingClientRect();
    const seen = Math.min(box.bottom, bottom) - Math.max(box.top, 0);
    looks.set(place.id, Math.max(0, seen) / Math.max(1, Math.min(box.height, bottom)));
  }
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

/** showPictures shows an answer's pictures, instead of those that still wait.
 * The answer to a wrong word has none, and leaves the last good ones. */
export function showPictures(pictures: Picture[]): void {
  if (pictures.length === 0) return;
  const share = ({ place }: Picture) => looks.get(place) ?? 0;
  dropSystemsBut(pictures);
  steps = [
    pictures.filter((picture) => share(picture) >= mostly),
    pictures.filter((picture) => share(picture) < mostly && (share(picture) > 0 || isNew(picture))),
    pictures.filter((picture) => share(picture) === 0 && !isNew(picture)),
  ];
  step();
  if (!walking) walk();
}

/** whenShown does something when what comes first is on the screen. */
export function whenShown(act: () => void): void {
  after.push(act);
  if (!walking) walk();
}

// Frames stop while a page is hidden; what waits must not.
function walk(): void {
  walking = true;
  const next = () => {
    for (const act of after.splice(0)) act();
    if (steps.length === 0) {
      walking = false;
      return;
    }
    step();
    walk();
  };
  if (document.hidden) setTimeout(next);
  else requestAnimationFrame(() => setTimeout(next));
}

function step(): void {
  const fresh = (steps.shift() ?? []).filter(show);
  if (fresh.length === 0) return;
  changes += fresh.length;
  listener();
}

// show puts a picture in its place, and tells whether it is another.
function show({ place: id, mark, html }: Picture): boolean {
  const place = document.getElementById(id) ?? newSystem(id);
  if (!place || (mark && place.dataset.mark === mark)) return false;
  const focus = place.contains(document.activeElement) ? document.activeElement?.id : "";
  reading.selectNodeContents(place);
  const fresh = reading.createContextualFragment(html);
  // Most words leave the neck as it looks, and change which notes its spots
  // play: that need not be laid out and painted again.
  if (id === "neck") Idiomorph.morph(place, [...fresh.childNodes], { morphStyle: "innerHTML" });
  else place.replaceChildren(fresh);
  if (mark) place.dataset.mark = mark;
  if (focus) document.getElementById(focus)?.focus({ preventScroll: true });
  return true;
}

// A line may come to have more systems, or fewer.
const isSystem = (id: string): boolean => id.startsWith("system-");

function isNew({ place }: Picture): boolean {
  return isSystem(place) && !document.getElementById(place);
}

function newSystem(id: string): HTMLElement | null {
  if (!isSystem(id)) return null;
  const place = document.createElement("div");
  place.id = id;
  place.className = "picture";
  document.getElementById("sheet")?.append(place);
  return place;
}

function dropSystemsBut(pictures: Picture[]): void {
  for (const place of document.querySelectorAll("#sheet > .picture")) {
    if (!pictures.some((picture) => picture.place === place.id)) place.remove();
  }
}
