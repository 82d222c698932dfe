/**
 * The first half of the printed sheet's look, in Typst: the page, and what stands in a line or a cell.
 *
 * Text from the data is only ever shown as text, never run as markup. Signal colours are print equivalents of the
 * safety colours of ANSI Z535.1 and ISO 3864-4 (values from memory); every panel also differs by word, symbol and
 * border, so that a grey copy can be read. What is decoration only is not in the tag tree.
 */
export const ATOMS = String.raw`
#let d = json("/sheet.json")

#let ink = rgb("#111111")
#let grey = luma(90)
#let pale = luma(232)
#let signals = (
  danger: (fill: rgb("#c8102e"), on: white),
  warning: (fill: rgb("#ff8200"), on: black),
  caution: (fill: rgb("#ffd100"), on: black),
  notice: (fill: rgb("#005eb8"), on: white),
)
#let margins = (left: 20mm, right: 14mm)
#let paper-width = if d.paper == "letter" { 215.9mm } else { 210mm }
#let full = paper-width - margins.left - margins.right

#set document(title: d.title, date: if d.date == none { none } else { datetime(..d.date) })
#set text(font: d.fonts, fallback: false, size: 10.5pt, fill: ink, lang: d.lang, region: d.region, hyphenate: false)
#set par(leading: 0.62em, spacing: 0.8em, justify: false)
// Words wider than their column are broken rather than run into the next one: letters with a hyphen, all else
// without. Only words that could be too wide are measured. Japanese and Chinese break between letters anyway.
#let word-stop = "\\s\\-\u{ad}\u{200b}\\p{Han}\\p{Hiragana}\\p{Katakana}\u{3000}-\u{303f}\u{ff00}-\u{ffef}"
#let fit(w, words, body) = {
  let most = calc.max(3, int(w / 12pt))
  if words.split().all(word => word.len() < most) { return body }
  show regex("[^" + word-stop + "]{" + str(most) + ",}"): it => context {
    if measure(it).width <= w { it }
    else if it.text.match(regex("^\\p{L}+$")) != none { it.text.clusters().join("\u{ad}") }
    else { it.text.clusters().map(sign => box(sign)).join(sym.zws) }
  }
  body
}

// The same for headings, whose text must be known without measuring: so many letters fit in a line even if all are wide.
#let fit-heading(words, most) = {
  let broken = words.split(" ").map(word => {
    if word.clusters().len() > most { word.clusters().map(sign => box(sign)).join(sym.zws) } else { word }
  })
  broken.join([ ])
}

// The head of a page has room for three lines; the whole title stands on the first page.
#let cut(words, most) = if words.clusters().len() > most { words.clusters().slice(0, most - 1).join() + "…" } else { words }

#set page(
  paper: if d.paper == "letter" { "us-letter" } else { "a4" },
  margin: (top: 22mm, bottom: 19mm, ..margins),
  header-ascent: 5mm,
  footer-descent: 5mm,
  header: block(width: 100%, stroke: (bottom: 0.8pt + ink), inset: (bottom: 1.6mm), {
    set text(size: 8.5pt)
    set par(leading: 0.5em)
    grid(
      columns: (5fr, auto, 3fr), column-gutter: 4mm, align: (left + bottom, bottom, right + bottom),
      fit-heading(cut(d.title, 100), 24),
      if d.draft != "" { box(fill: ink, inset: (x: 2mm, y: 1mm), text(fill: white, weight: "bold", d.draft)) },
      text(weight: "bold", fit-heading(cut(d.running, 60), 20)),
    )
  }),
  footer: block(width: 100%, stroke: (top: 0.8pt + ink), inset: (top: 1.6mm), {
    set text(size: 8.5pt)
    grid(
      columns: (1fr, auto), column-gutter: 4mm,
      strong(fit-heading(d.validity, 40)),
      context d.pageOf
        .replace("{page}", str(here().page()))
        .replace("{pages}", str(counter(page).final().first())),
    )
  }),
  background: if d.draft != "" {
    rotate(-52deg, text(size: 120pt, weight: "bold", fill: luma(235), d.draft))
  },
)

#let tick-box(size) = {
  let side = if size == "large" { 6mm } else { 3.7mm }
  box(width: side, height: side, baseline: if size == "large" { 1.2mm } else { 0.55mm }, radius: 0.4mm, fill: white, stroke: if size == "large" { 1.1pt + ink } else { 0.85pt + ink })
}
#let badge(words, look) = if look in signals { box(
  fill: signals.at(look).fill, stroke: 0.9pt + ink, inset: (x: 1.4mm), outset: (y: 0.9mm),
  text(size: 0.9em, weight: "bold", fill: signals.at(look).on, words),
) } else { box(
  fill: if look == "solid" { ink } else { white },
  stroke: 0.7pt + ink, radius: 0.6mm, inset: (x: 1.2mm), outset: (y: 0.75mm),
  text(size: 0.82em, weight: "bold", fill: if look == "solid" { white } else { ink }, words),
) }
#let write-box(a) = {
  let width = if a.size == "medium" { 42mm } else { 20mm }
  box(baseline: 2.4mm, {
    box(width: width, height: 7mm, stroke: 0.85pt + ink, radius: 0.4mm, fill: white,
      if a.input == "time" { align(center + horizon, text(fill: grey, pdf.artifact[:])) })
    if a.unit != "" and a.unit.len() < 12 { h(1.2mm); box(height: 7mm, align(horizon, a.unit)) }
  })
  if a.unit.len() >= 12 { [ #a.unit] }
}

#let no-break(words) = words.replace(" ", "\u{a0}")
#let run(a, w) = {
  if a.style == "strong" or a.style == "code" { strong(a.text) }
  else if a.style == "em" { emph(a.text) }
  else if a.style == "quantity" {
    context if measure(no-break(a.text)).width <= w { no-break(a.text) } else { a.text }
  }
  else if a.style == "link" {
    link(a.href, underline(a.text))
    if a.text != a.href { [ (#text(size: 0.9em, a.href))] }
  }
  else { a.text }
}
#let chip(a, w) = {
  let words = {
    strong(no-break(a.value))
    if a.other != "" { h(1.2mm); text(size: 0.95em, "(" + no-break(a.other) + ")") }
  }
  context if measure(words).width + 3mm <= w {
    box(stroke: 1pt + ink, radius: 0.8mm, inset: (x: 1.4mm), outset: (y: 1.1mm), fill: white, words)
  } else {
    strong(a.value)
    if a.other != "" { [ (#a.other)] }
  }
}
#let ticked(a, w) = {
  if a.label == "" { tick-box(a.size); h(1.1mm) } else {
    let whole = { tick-box(a.size); h(1.1mm); a.label }
    context if measure(whole).width <= w { box(whole) } else { whole }
  }
}
#let atom(a, w) = {
  if a.kind == "run" { run(a, w) }
  else if a.kind == "ref" { if a.to in d.targets { link(label(a.to), strong(a.text)) } else { strong(a.text) } }
  else if a.kind == "tick" { ticked(a, w) }
  else if a.kind == "field" { if a.size == "cell" { box(width: 0pt, height: 6.6mm) } else { write-box(a) } }
  else if a.kind == "badge" {
    let whole = badge(a.text, a.look)
    context if measure(whole).width <= w { whole } else { strong(a.text) }
  }
  else if a.kind == "chip" { chip(a, w) }
  else if a.kind == "break" { linebreak() }
}
#let words-of(a) = (a.at("text", default: ""), a.at("label", default: ""), a.at("value", default: ""), a.at("other", default: "")).join(" ")
#let atoms(list, w) = fit(w, list.map(words-of).join(" ", default: ""), for a in list { atom(a, w) })
`;
