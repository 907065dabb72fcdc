export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found as T;
}

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

/** Writes only what changes, into the existing text node: the browser would style a new one again. */
export function updateText(node: Node, text: string): void {
  const { firstChild: own } = node;
  if (own instanceof Text && own === node.lastChild) {
    if (own.data !== text) own.data = text;
  } else if (own || text !== '') node.textContent = text;
}

export function updateAttribute(node: Element, name: string, value: string): void {
  if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}
