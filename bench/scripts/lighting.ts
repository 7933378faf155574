// Lighting the note that sounds, on staff, tablature, neck and strip, by the
// audio clock: each frame asks which sample reaches the ear now.
import { Following } from "./following";
import { cover, say, shown } from "./page";
import { tuneOf } from "./sounds";
import type { Pass } from "./passes";
import type { Transport } from "./transport";

// A frame that is drawn now is seen about half a frame later, and the next one
// a whole frame after that: looking half a frame ahead halves the greatest
// error.
const leadS = 0.008;

/** keepLighting lights notes for as long as something plays, and reports the
 * tempo of what is heard. It returns what to call when pictures were replaced. */
export function keepLighting(transport: Transport, hearTempo: (tempo: number) => void): () => void {
  const following = new Following();
  let lit = -1;
  let running = false;
  let elements = new Map<number, Element[]>();
  let indexed = false; // the elements of what is shown have been found
  let kind = "";

  const dark = () => {
    for (const element of document.querySelectorAll(".lit")) element.classList.remove("lit");
    document.getElementById("now")?.remove();
    lit = -1;
  };

  const light = (note: number) => {
    for (const element of elements.get(lit) ?? []) element.classList.remove("lit");
    lit = note;
    for (const element of elements.get(note) ?? []) element.classList.add("lit", "heard");
    const sounding = elements.get(note) ?? [];
    for (const join of document.querySelectorAll(`#sheet .join[data-note~="${note}"]`)) join.classList.add("heard");
    following.follow(sounding);
    column(sounding);
  };

  const frame = () => {
    if (!transport.playing) {
      running = false;
      dark();
      hearTempo(shown().tempo);
      return;
    }
    requestAnimationFrame(frame);
    if (!indexed) {
      dark();
      elements = index();
      indexed = true;
    }
    const heard = transport.heardAt(transport.heardNow() + leadS);
    const note = heard && heard.pass.kind === "line" && shows(heard.pass) ? noteAt(heard.pass, heard.position) : -1;
    if (note !== lit) {
      if (note < 0) dark();
      else light(note);
    }
    if (heard) hearTempo(heard.pass.sounds.timeline.tempo);
    if (heard && heard.pass.kind !== kind) {
      kind = heard.pass.kind;
      say(remarks[kind] ?? "");
    }
  };

  transport.onChange(() => {
    if (!transport.playing || running) return;
    running = true;
    kind = "";
    indexed = false;
    following.begin();
    for (const element of document.querySelectorAll(".heard")) element.classList.remove("heard");
    requestAnimationFrame(frame);
  });
  return () => (indexed = false);
}

const remarks: Record<string, string> = { count: "Count-in", response: "Your turn", silent: "Click alone" };

/** shows tells whether the page shows the notes that a pass plays. */
function shows(pass: Pass): boolean {
  return tuneOf(pass.sounds.query) === tuneOf(shown().query);
}

/** noteAt is the note that sounds at a position in the loop, or −1. */
function noteAt(pass: Pass, position: number): number {
  const { notes, samples } = pass.sounds.timeline;
  for (const note of notes) {
    if ((note.start <= position && position < note.end) || position + samples < note.end) return note.index;
  }
  return -1;
}

/** index finds the elements of every note. */
function index(): Map<number, Element[]> {
  const found = new Map<number, Element[]>();
  const add = (note: number, element: Element) => {
    const list = found.get(note);
    if (list) list.push(element);
    else found.set(note, [element]);
  };
  for (const element of document.querySelectorAll("#sheet .note, #strip .note")) add(Number(element.getAttribute("data-note")), element);
  const spots = document.getElementById("sheet")?.dataset.spots?.split(" ") ?? [];
  for (const [note, spot] of spots.entries()) {
    const element = document.getElementById("neck-" + spot);
    if (element) add(note, element);
  }
  return found;
}

const leastPX = 14; // width of a band: of the figures beneath a note

/** column puts a band over the note's column, through all rows of its system. */
function column(elements: Element[]): void {
  const sheet = document.getElementById("sheet");
  const onSheet = elements.filter((element) => element.closest("#sheet"));
  const system = onSheet[0]?.closest(".system");
  if (!sheet || !system) return;
  let now = document.getElementById("now");
  if (!now) {
    now = document.createElement("div");
    now.id = "now";
    sheet.append(now);
  }
  const rects = onSheet.map((element) => element.getBoundingClientRect());
  const middle = (rects[0]?.left ?? 0) / 2 + (rects[0]?.right ?? 0) / 2;
  const left = Math.min(middle - leastPX / 2, ...rects.map((rect) => rect.left));
  const right = Math.max(middle + leastPX / 2, ...rects.map((rect) => rect.right));
  const rows = system.getBoundingClientRect();
  const home = sheet.getBoundingClientRect();
  cover(now, left - home.left - 2, rows.top - home.top, right - left + 4, rows.height);
}
