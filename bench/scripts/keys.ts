// Which keys are the page's, and which belong to what has the focus.

/** takesKey tells whether a control uses a key itself. */
export function takesKey(target: EventTarget | null, key: string): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return ["checkbox", "file"].includes(target.type) ? key === " " : target.type !== "range";
  if (target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable) return true;
  return key === " " && target.closest("button, summary, a") !== null;
}

/** wanted tells whether a key is not the page's: it has a modifier, repeats, or
 * is used by what has the focus. */
export function wanted(event: KeyboardEvent): boolean {
  return event.altKey || event.ctrlKey || event.metaKey || event.repeat || takesKey(event.target, event.key);
}
