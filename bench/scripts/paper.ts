// The page's print is the handout, whatever the window's width: its sentence
// and pictures are fetched when printing begins.

/** printAsHandout puts the print on the page for as long as it prints. The browser
 * prints as soon as the listeners return, so this one request is synchronous. */
export function printAsHandout(): void {
  const paper = document.querySelector(".handout");
  window.addEventListener("beforeprint", () => {
    if (!paper || !document.getElementById("sheet")) return;
    const request = new XMLHttpRequest();
    request.open("GET", "/paper" + location.search, false);
    try {
      request.send();
    } catch {
      return; // nobody answers: what is on the screen is printed
    }
    if (request.status === 200) paper.replaceChildren(document.createRange().createContextualFragment(request.responseText));
  });
  window.addEventListener("afterprint", () => paper?.replaceChildren());
}
