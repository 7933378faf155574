// The pictures are drawn for the room they have. When that changes, they are
// fetched again.

const apartPX = 40; // less is taken up by stretching

/** A Fitted picture is one part of a page. */
export interface Fitted {
  id: string; // of the picture, which says what room it was drawn for
  holder: string; // id of what gives it room
  address: string; // of the page
  part: string;
}

/** sheetOf is the sheet of a take page. */
export function sheetOf(query: string): Fitted {
  return { id: "sheet", holder: "sheet-holder", address: "/take?" + query, part: "sheet" };
}

/** fit keeps a picture to its room and calls back after each drawing. */
export function fit({ id, holder, address, part }: Fitted, drawn: () => void): void {
  const again = async () => {
    const picture = document.getElementById(id);
    const room = document.getElementById(holder)?.clientWidth ?? 0;
    if (!picture || Math.abs(Number(picture.dataset.room) - room) < apartPX) return;
    const answer = await fetch(address, { headers: { "Heddle-Part": part, "Heddle-Width": `${room} ${room}` } });
    if (!answer.ok) return; // the picture that is there will do
    const next = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById(id);
    if (!next) return;
    picture.replaceWith(document.adoptNode(next));
    drawn();
  };
  let waiting = 0;
  window.addEventListener("resize", () => {
    drawn();
    clearTimeout(waiting);
    waiting = window.setTimeout(() => void again(), 150);
  });
  void again();
}
