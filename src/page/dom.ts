/** The element of the page with this id; the page is ours, so that it is there. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found as T;
}

/** A new element with its attributes and what stands in it. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/**
 * Writes text only where it is another: what is the same is not laid out again. The node's own text is
 * changed in its place, as the browser makes its style anew for one put there instead.
 */
export function updateText(node: Node, text: string): void {
  const { firstChild: own } = node;
  if (own instanceof Text && own === node.lastChild) {
    if (own.data !== text) own.data = text;
  } else if (own || text !== '') node.textContent = text;
}

/** Sets an attribute only where it is another. */
export function updateAttribute(node: Element, name: string, value: string): void {
  if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}
