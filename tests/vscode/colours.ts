/** How well one colour can be read on another. */

/**
 * The contrast ratio of two colours, from 1 (the same) to 21 (black on white).
 *
 * Source: WCAG 2.2, "contrast ratio" and "relative luminance".
 *
 * @param one a colour as a browser computes it, `rgb(r, g, b)` with 0 to 255 each
 */
export function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => {
    const share = Number(part) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
