// The sheet is drawn for the room it has; where there is more or less, it is
// fetched again.

const apartPX = 40; // less is taken up by stretching

/** fitSheet keeps the sheet to its room and calls back after each drawing. */
export function fitSheet(query: string, drawn: () => void): void {
  const holder = document.getElementById("sheet-holder");
  if (!holder) return;
  const fit = async () => {
    const sheet = document.getElementById("sheet");
    if (!sheet || Math.abs(Number(sheet.dataset.room) - holder.clientWidth) < apartPX) return;
    const answer = await fetch("/take?" + query, { headers: { "Heddle-Part": "sheet", "Heddle-Width": `${holder.clientWidth} ${holder.clientWidth}` } });
    if (!answer.ok) return; // the sheet that stands there serves too
    const next = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("sheet");
    if (!next) return;
    sheet.replaceWith(document.adoptNode(next));
    drawn();
  };
  let waiting = 0;
  window.addEventListener("resize", () => {
    drawn();
    clearTimeout(waiting);
    waiting = window.setTimeout(() => void fit(), 150);
  });
  void fit();
}
