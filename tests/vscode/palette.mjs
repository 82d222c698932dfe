/** Runs in a page: which colours words stand in, and on what. Plain JavaScript, for the page's own types are not ours. */

/**
 * The background of a page's body, and every pair of colours in which words stand on it, as `colour|background`.
 *
 * @param {any} body
 * @returns {{ background: string, pairs: string[] }}
 */
export function palette(body) {
  const { getComputedStyle } = body.ownerDocument.defaultView;
  const behind = (at) => {
    for (let element = at; element; element = element.parentElement) {
      const colour = getComputedStyle(element).backgroundColor;
      if (!/, 0\)$|transparent/.test(colour)) return colour;
    }
    return "rgb(255, 255, 255)";
  };
  // The words of a drawing are filled, not coloured.
  const colourOf = (element) =>
    element.namespaceURI.endsWith("/svg") ? getComputedStyle(element).fill : getComputedStyle(element).color;
  const seen = new Set();
  for (const element of body.querySelectorAll("*")) {
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
    if (own && element.getClientRects().length > 0) seen.add(`${colourOf(element)}|${behind(element)}`);
  }
  return { background: behind(body), pairs: [...seen] };
}
