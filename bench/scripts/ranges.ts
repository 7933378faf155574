// Marking the run of notes that repeats: by dragging over the score, with the
// arrow keys, or by number.
import { hearNote } from "./hearing";
import { byId, cover, hide, say, shown } from "./page";
import type { Range, Transport } from "./transport";

export interface Ranges {
  redraw(): void;
  clear(): void;
  focus(): void;
}

const dragPX = 6; // less is a click

export function markRanges(transport: Transport): Ranges {
  let cursor = 0;
  let anchor = -1; // where a range began
  let press: { note: number; x: number; y: number } | null = null;
  let dragging = false;
  let byKeys = false; // what was done last

  const set = (range: Range | null) => {
    const last = shown().notes - 1;
    const whole = range !== null && range.first <= 0 && range.last >= last;
    transport.range = range === null || whole ? null : { first: Math.max(0, range.first), last: Math.min(last, range.last) };
    redraw();
  };
  const between = (a: number, b: number): Range => ({ first: Math.min(a, b), last: Math.max(a, b) });

  const redraw = () => {
    const sheet = document.getElementById("sheet");
    if (!sheet) return;
    sheet.querySelector(".marks")?.remove();
    const { range } = transport;
    const from = byId("loop-from", HTMLInputElement);
    const to = byId("loop-to", HTMLInputElement);
    if (from && document.activeElement !== from) from.value = range ? String(range.first + 1) : "";
    if (to && document.activeElement !== to) to.value = range ? String(range.last + 1) : "";
    if (to) to.placeholder = String(shown().notes);
    hide("loop-all", range === null);
    const marks = document.createElement("div");
    marks.className = "marks";
    if (range) for (const box of boxes(sheet, range)) marks.append(band(sheet, box, "band"));
    if (byKeys && document.activeElement === sheet) {
      for (const box of boxes(sheet, { first: cursor, last: cursor })) marks.append(band(sheet, box, "band cursor"));
    }
    sheet.append(marks);
  };

  const announce = () => {
    const { range } = transport;
    const says = facts(cursor).join(", ");
    say(`Note ${cursor + 1}` + (says && ": " + says) + (range ? `; loop ${range.first + 1} to ${range.last + 1}` : ""));
  };

  document.addEventListener("keydown", () => (byKeys = true), true);
  document.addEventListener("pointerdown", (event) => {
    byKeys = false;
    const sheet = event.target instanceof Element ? event.target.closest("#sheet") : null;
    if (!sheet || event.button !== 0) return;
    const note = noteNear(sheet, event.clientX, event.clientY);
    if (note >= 0) press = { note, x: event.clientX, y: event.clientY };
    dragging = false;
  });
  document.addEventListener("pointermove", (event) => {
    const sheet = document.getElementById("sheet");
    if (!press || !sheet) return;
    if (!dragging && Math.hypot(event.clientX - press.x, event.clientY - press.y) < dragPX) return;
    dragging = true;
    const note = noteNear(sheet, event.clientX, event.clientY);
    if (note >= 0) set(between(press.note, note));
  });
  document.addEventListener("pointerup", () => {
    if (press && dragging) {
      transport.rangeChanged();
      say(loopSaid());
    } else if (press) {
      cursor = press.note;
      if (transport.playing) transport.goTo(press.note);
      else void hearNote(transport, press.note);
      redraw();
    }
    press = null;
    dragging = false;
  });
  document.addEventListener("pointercancel", () => {
    press = null;
    dragging = false;
  });

  document.addEventListener("keydown", (event) => {
    if (!(event.target instanceof Element) || event.target.id !== "sheet" || event.altKey || event.ctrlKey || event.metaKey) return;
    const last = shown().notes - 1;
    const step: Record<string, number> = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -8, ArrowDown: 8, Home: -last, End: last };
    const by = step[event.key];
    if (by !== undefined) {
      event.preventDefault();
      if (event.shiftKey && anchor < 0) anchor = cursor;
      if (!event.shiftKey) anchor = -1;
      cursor = Math.min(last, Math.max(0, cursor + by));
      if (event.shiftKey) {
        set(between(anchor, cursor));
        transport.rangeChanged();
      }
      redraw();
      announce();
    } else if (event.key === "Enter") {
      event.preventDefault();
      transport.goTo(cursor);
    }
  });
  document.addEventListener("focusin", (event) => {
    if (event.target instanceof Element && event.target.id === "sheet") redraw();
  });
  document.addEventListener("focusout", (event) => {
    if (event.target instanceof Element && event.target.id === "sheet") queueMicrotask(redraw);
  });

  // A number typed is one end of the run. Where the other end would be on the
  // wrong side of it, the whole run moves and keeps its length.
  const typed = (field: HTMLInputElement, end: "first" | "last") => {
    const { notes } = shown();
    const asked = field.value === "" ? (end === "first" ? 1 : notes) : Math.round(Number(field.value));
    const at = Math.min(notes, Math.max(1, asked)) - 1;
    const range = { first: 0, last: notes - 1, ...transport.range };
    const longer = range.last - range.first;
    range[end] = at;
    if (range.first > range.last) {
      if (end === "first") range.last = at + longer;
      else range.first = at - longer;
    }
    set(range);
    transport.rangeChanged();
    field.value = transport.range ? String(transport.range[end] + 1) : "";
    say((at + 1 === asked ? "" : `The line has notes 1 to ${notes}. `) + loopSaid());
  };
  for (const [id, end] of [["loop-from", "first"], ["loop-to", "last"]] as const) {
    const field = byId(id, HTMLInputElement);
    field?.addEventListener("change", () => typed(field, end));
  }
  const loopSaid = () => (transport.range ? `Loop: notes ${transport.range.first + 1} to ${transport.range.last + 1}` : "Loop: the whole line");

  const clear = () => {
    anchor = -1;
    set(null);
    transport.rangeChanged();
    say(loopSaid());
  };
  byId("loop-all", HTMLButtonElement)?.addEventListener("click", () => {
    clear();
    byId("play", HTMLButtonElement)?.focus();
  });
  window.addEventListener("resize", redraw);
  const linked = /^#notes=(\d+)-(\d+)$/.exec(location.hash); // a link that carries a loop
  if (linked) set({ first: Number(linked[1]) - 1, last: Number(linked[2]) - 1 });
  return { redraw, clear, focus: () => document.getElementById("sheet")?.focus() };
}

/** facts are what the page shows of a note, for those who don't see it. */
function facts(note: number): string[] {
  const shows = document.getElementById("bench")?.classList;
  if (shows?.contains("by-heart") && !document.querySelector(`#sheet .note.heard[data-note="${note}"]`)) return [];
  const cells = [...(document.querySelectorAll("#rows tbody tr")[note]?.children ?? [])].map((cell) => cell.textContent ?? "");
  return [shows?.contains("no-names") ? "" : cells[1], cells[3], shows?.contains("no-tab") ? "" : `string ${cells[4]} fret ${cells[5]}`].filter((fact) => fact) as string[];
}

/** noteNear is the note of the sheet nearest to a point, in the system that the
 * point is in or beside; −1 where there is none. */
function noteNear(sheet: Element, x: number, y: number): number {
  let best = -1;
  let nearest = Infinity;
  for (const system of sheet.querySelectorAll(".system")) {
    const box = system.getBoundingClientRect();
    const away = Math.max(0, box.top - y, y - box.bottom) * 10;
    for (const element of system.querySelectorAll(".note")) {
      const at = element.getBoundingClientRect();
      const distance = away + Math.max(0, at.left - x, x - at.right);
      if (distance < nearest) {
        nearest = distance;
        best = Number(element.getAttribute("data-note"));
      }
    }
  }
  return best;
}

/** boxes are the rectangles that a run of notes takes up, one for each system. */
function boxes(sheet: Element, range: Range): DOMRect[] {
  const list: DOMRect[] = [];
  for (const system of sheet.querySelectorAll(".system")) {
    let left = Infinity;
    let right = -Infinity;
    for (const element of system.querySelectorAll(".note")) {
      const note = Number(element.getAttribute("data-note"));
      if (note < range.first || note > range.last) continue;
      const at = element.getBoundingClientRect();
      left = Math.min(left, at.left);
      right = Math.max(right, at.right);
    }
    if (left > right) continue;
    const box = system.getBoundingClientRect();
    list.push(new DOMRect(left - 3, box.top, right - left + 6, box.height));
  }
  return list;
}

function band(sheet: Element, box: DOMRect, kind: string): HTMLElement {
  const home = sheet.getBoundingClientRect();
  const element = document.createElement("div");
  element.className = kind;
  cover(element, box.left - home.left, box.top - home.top, box.width, box.height);
  return element;
}
