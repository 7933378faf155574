// Finding elements of the page.

/** byId returns an element that every bench page has. */
export function byId<T extends HTMLElement>(id: string, kind: new () => T): T | null {
  const element = document.getElementById(id);
  return element instanceof kind ? element : null;
}

/** The sheet says which exercise is shown; it is replaced with each change. */
export interface Shown {
  query: string;
  tempo: number;
  notes: number;
}

export function shown(): Shown {
  const sheet = document.getElementById("sheet");
  return {
    query: sheet?.dataset.sound ?? "",
    tempo: Number(sheet?.dataset.tempo ?? 80),
    notes: Number(sheet?.dataset.notes ?? 0),
  };
}

/** say puts a remark where screen readers announce it. */
export function say(text: string): void {
  const place = document.getElementById("say");
  if (place && place.textContent !== text) place.textContent = text;
}

/** checked tells whether a checkbox of the transport is on. */
export function checked(id: string): boolean {
  return byId(id, HTMLInputElement)?.checked ?? false;
}

/** hide hides an element or shows it. */
export function hide(id: string, hidden: boolean): void {
  const element = document.getElementById(id);
  if (element) element.hidden = hidden;
}

/** cover puts an element over a box of pixels. */
export function cover(element: HTMLElement, left: number, top: number, width: number, height: number): void {
  Object.assign(element.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
}

/** smoothly is how to scroll for this reader. */
export function smoothly(): ScrollBehavior {
  return matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
}

/** reason says what went wrong. */
export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
