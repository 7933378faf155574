// Keys of the whole page.

/** wanted tells whether a key is not the page's: it has a modifier, repeats,
 * or what has the focus takes it for itself. */
export function wanted(event: KeyboardEvent): boolean {
  if (event.altKey || event.ctrlKey || event.metaKey || event.repeat) return true;
  const at = event.target;
  if (!(at instanceof HTMLElement)) return false;
  if (at instanceof HTMLInputElement) return at.type === "checkbox" || at.type === "range" || at.type === "file" ? event.key === " " : true;
  if (at instanceof HTMLSelectElement) return true;
  return event.key === " " && at.closest("button, summary, a") !== null;
}
