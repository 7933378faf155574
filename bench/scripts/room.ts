// How much room the pictures have.

const waitMS = 150; // until a window that is being resized has come to rest

/** roomText is how many pixels wide the music and the neck may be. */
export function roomText(): string {
  return `${widthOf("sheet-holder")} ${widthOf("neck")}`;
}

// Widths are kept until they change, since reading one may lay out the page.
const widths = new Map<string, number>();
const watch = new ResizeObserver((changed) => {
  for (const { target } of changed) widths.set(target.id, target.clientWidth);
});

function widthOf(id: string): number {
  const element = document.getElementById(id);
  if (!element) return 0;
  const known = widths.get(id);
  if (known !== undefined) return known;
  watch.observe(element);
  widths.set(id, element.clientWidth);
  return element.clientWidth;
}

/** redrawWhenRoomChanges calls back when the music has another width than it was
 * drawn for: the first page is drawn for a usual one. */
export function redrawWhenRoomChanges(redraw: () => void): void {
  let waiting = 0;
  const check = () => {
    const drawnFor = Number(document.getElementById("sheet")?.dataset.room ?? 0);
    if (drawnFor && widthOf("sheet-holder") !== drawnFor) redraw();
  };
  const holder = document.getElementById("sheet-holder");
  const resized = new ResizeObserver(() => {
    clearTimeout(waiting);
    waiting = window.setTimeout(check, waitMS);
  });
  if (holder) resized.observe(holder); // its width changes with the letters' size too
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", check);
  else check();
}
