// Putting a new tree in the place of an old one, keeping what is equal: what is
// kept need not be styled, laid out and painted again.

const few = 2; // where so many children differ, what is in them may still be equal

/** patch makes what a node holds equal to what another holds, taking its
 * nodes. Equal children at both ends are kept; what is between them is
 * replaced, or patched where it is little. */
export function patch(parent: Node, fresh: Node): void {
  const old = [...parent.childNodes];
  const now = [...fresh.childNodes];
  const shorter = Math.min(old.length, now.length);
  let start = 0;
  while (start < shorter && same(old[start], now[start])) start++;
  let end = 0;
  while (end < shorter - start && same(old[old.length - 1 - end], now[now.length - 1 - end])) end++;
  const going = old.slice(start, old.length - end);
  const coming = now.slice(start, now.length - end);
  if (going.length === coming.length && going.length <= few) {
    for (const [i, to] of coming.entries()) into(going[i] as Node, to);
    return;
  }
  const block = document.createDocumentFragment();
  block.append(...coming);
  for (const node of going) node.parentNode?.removeChild(node);
  parent.insertBefore(block, old[old.length - end] ?? null);
}

const same = (a: Node | undefined, b: Node | undefined): boolean => a !== undefined && b !== undefined && a.isEqualNode(b);

function into(from: Node, to: Node): void {
  if (!(from instanceof Element && to instanceof Element) || from.nodeName !== to.nodeName || from.attributes.length !== to.attributes.length) {
    from.parentNode?.replaceChild(to, from);
    return;
  }
  for (const { name, value } of to.attributes) if (from.getAttribute(name) !== value) from.setAttribute(name, value);
  patch(from, to);
}
