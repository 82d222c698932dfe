/**
 * The printed sheet's look, in Typst: draws the layout that `pdf.ts` passes in as `/sheet.json`.
 *
 * A module and not a file of its own, so that it is part of every bundle.
 */
import { ATOMS } from "./template-atoms";

export const TEMPLATE = `${ATOMS}
// A bar in the margin beside what has changed.
#let barred(n, body) = if n.changed {
  block(width: 100%, stroke: (left: 2.4pt + ink), outset: (left: 3mm), body)
} else { body }

// Where an item came to lie, for whoever asks.
#let here-is(n) = if n.id != "" { context [#metadata((id: n.id, page: here().page())) <where>] }

#let symbol(signal, look) = pdf.artifact(box(width: 7.4mm, height: 6.6mm, baseline: 1.1mm, {
  if signal == "notice" {
    place(center + horizon, circle(radius: 3.1mm, fill: look.on))
    place(center + horizon, text(size: 13pt, weight: "bold", fill: look.fill, "i"))
  } else {
    place(polygon(fill: look.on, stroke: (paint: look.on, thickness: 0.6mm, join: "round"), (0.5mm, 6.2mm), (3.7mm, 0.5mm), (6.9mm, 6.2mm)))
    place(center + bottom, dy: -0.35mm, text(size: 12pt, weight: "bold", fill: look.fill, "!"))
  }
}))

// A panel is one block that stays with what follows it. Only one taller than a page is parted: its last part, what to
// do, then still stays with what follows.
#let panel(n, w) = {
  let look = signals.at(n.signal)
  let inner = w - 6mm
  let inset = (x: 3mm, top: 2mm, bottom: 2.2mm)
  let framed(parted, stays, above, below, body) = block(
    width: 100%, breakable: parted, sticky: stays, stroke: 1.6pt + ink, fill: white, above: above, below: below, body,
  )
  let bar = block(width: 100%, fill: look.fill, inset: (x: 2.4mm, y: 1.3mm), below: 0mm, stroke: (bottom: 1.6pt + ink), {
    here-is(n)
    symbol(n.signal, look)
    h(2mm)
    text(size: 14pt, weight: "bold", fill: look.on, tracking: 0.6pt, n.word)
  })
  let hazard = par({ atoms(n.hazard, inner); [ ]; atoms(n.consequence, inner) })
  let avoid = { par(strong(atoms(n.avoid, inner))); here-is((id: n.id + ".end")) }
  let whole = { bar; block(width: 100%, inset: inset, above: 0mm, { hazard; avoid }) }
  let page = 200mm
  context if measure(whole, width: w).height <= page { framed(false, true, 3.4mm, 2.6mm, whole) } else {
    framed(true, false, 3.4mm, 0mm, { bar; block(width: 100%, inset: inset, above: 0mm, hazard) })
    let tall = measure(avoid, width: inner).height > page
    framed(tall, true, 0mm, 2.6mm, block(width: 100%, inset: inset, avoid))
  }
}

#let table-node(n, w) = {
  let total = n.columns.map(c => c.width).sum()
  let widths = n.columns.map(c => w * c.width / total)
  set text(size: 9.5pt)
  let cells = n.rows.map(r => r.cells.enumerate().map(((i, cell)) => table.cell(
    stroke: if i == 0 and r.changed { (left: 3pt + ink, rest: 0.6pt + grey) } else { 0.6pt + grey },
    breakable: json.encode(cell).len() > 3000,
    {
      if i == 0 { here-is(r) }
      set text(hyphenate: widths.at(i) < 38mm)
      set par(leading: if cell.any(a => a.kind in ("chip", "tick", "field")) { 0.9em } else { 0.55em })
      let inside = atoms(cell, widths.at(i) - 3.4mm)
      if i == n.rowHead { strong(inside) } else { inside }
    },
  ))).flatten()
  table(
    columns: widths,
    align: (x, y) => (if n.columns.at(x).align == "centre" { center } else { left }) + (if n.tall or y == 0 { horizon } else { top }),
    inset: (x: 1.7mm, y: if n.tall { 2mm } else { 1.6mm }),
    fill: (x, y) => if y == 0 { pale },
    stroke: 0.6pt + grey,
    table.header(..n.columns.enumerate().map(((i, c)) => text(size: 8.5pt, weight: "bold", fit(widths.at(i) - 3.4mm, c.head, c.head)))),
    ..cells,
  )
}

// What stands right before a drawing stays with it.
#let line-node(n, w, sticky: false) = {
  if n.look == "act" {
    let long = n.atoms.map(words-of).join("", default: "").len() > 2000
    let boxed = n.atoms.any(a => a.kind in ("chip", "tick"))
    block(width: 100%, above: 3.7mm, below: if boxed { 4.4mm } else { 3.7mm }, breakable: long, sticky: sticky, grid(
      columns: (5.5mm, 1fr),
      strong(n.mark),
      { here-is(n); par(leading: if boxed { 0.95em } else { 0.62em }, atoms(n.atoms, w - 5.5mm)) },
    ))
  } else if n.look == "note" {
    block(width: 100%, stroke: (left: 1.2pt + grey), inset: (left: 2.5mm, y: 0.6mm), text(size: 10pt, par(atoms(n.atoms, w - 3mm))))
  } else if n.look == "question" {
    block(width: 100%, above: 3.4mm, par(strong(atoms(n.atoms, w))))
  } else if n.look == "lead" {
    block(width: 100%, inset: (left: 5.5mm), par(leading: 0.9em, hanging-indent: 5mm, atoms(n.atoms, w - 5.5mm)))
  } else {
    block(width: 100%, par(atoms(n.atoms, w)))
  }
}

#let picture(n, w) = context {
  let natural = measure(image(n.path))
  let scale = calc.min(1, w / natural.width, 130mm / natural.height)
  figure(
    image(n.path, alt: n.alt, width: natural.width * scale),
    caption: if n.caption.len() > 0 { text(size: 9.5pt, atoms(n.caption, w)) },
    kind: image, supplement: none, numbering: none, gap: 2mm,
  )
}

// A drawing is as large as it is made, so that its scale is true, and keeps its caption.
#let drawing(n, w) = context {
  let natural = measure(image(n.path))
  [#figure(
    image(n.path, alt: n.alt, width: natural.width * calc.min(1, w / natural.width)),
    caption: if n.caption.len() > 0 { { here-is(n); text(size: 9.5pt, atoms(n.caption, w)) } },
    kind: image, supplement: none, numbering: none, gap: 2mm,
  ) #label(n.id)]
}

#let facts(n, w) = {
  let name-width = 38mm
  set text(size: 10pt)
  block(width: 100%, below: 5mm, for r in n.rows {
    barred(r, block(width: 100%, stroke: (bottom: 0.5pt + luma(170)), inset: (y: 1.25mm), spacing: 0mm, grid(
      columns: (name-width, 1fr),
      text(fill: grey, fit(name-width - 3mm, r.name, r.name)),
      strong(atoms(r.value, w - name-width)),
    )))
  })
}

#let node(n, w, sticky: false) = {
  let nodes(all, w) = for (i, one) in all.enumerate() {
    node(one, w, sticky: i + 1 < all.len() and all.at(i + 1).kind == "drawing")
  }
  if n.kind == "heading" {
    barred(n, if n.look == "section" {
      block(sticky: true, above: 7mm, below: 3.5mm, width: 100%, fill: ink, inset: (x: 2.4mm, y: 1.9mm),
        heading(level: n.level, text(size: 12.5pt, fill: white, fit-heading(n.text, 36))))
    } else if n.level == 2 {
      block(sticky: true, above: 6.5mm, below: 2.4mm, heading(level: 2, text(size: 12.5pt, fit-heading(n.text, 36))))
    } else {
      block(sticky: true, above: 4mm, below: 2mm, heading(level: n.level, text(size: 10.5pt, fit-heading(n.text, 40))))
    })
  }
  else if n.kind == "facts" { facts(n, w) }
  else if n.kind == "line" { barred(n, line-node(n, w, sticky: sticky)) }
  else if n.kind == "table" { barred(n, table-node(n, w)) }
  else if n.kind == "panel" { barred(n, panel(n, w)) }
  else if n.kind == "picture" { barred(n, picture(n, w)) }
  else if n.kind == "drawing" { barred(n, drawing(n, w)) }
  else if n.kind == "frame" {
    let look = if n.look == "outcome" { (stroke: (left: 2.2pt + grey), inset: (left: 3mm, y: 0.8mm)) }
      else if n.look == "condition" { (stroke: (paint: ink, thickness: 0.9pt, dash: "dashed"), inset: 2.6mm) }
      else if n.look == "wait" { (stroke: 0.9pt + ink, inset: 2.6mm, radius: 1.5mm) }
      else { (stroke: 0.9pt + grey, inset: 2.6mm) }
    let inner = w - 5.2mm
    barred(n, block(width: 100%, ..look, above: 3mm, below: 3mm, {
      block(width: 100%, sticky: n.body.len() > 0, below: 2.4mm, {
        here-is(n)
        par(leading: 0.9em, hanging-indent: if n.look == "each" { 0mm } else { 4.8mm }, atoms(n.head, inner))
      })
      nodes(n.body, inner)
    }))
  }
  else if n.kind == "step" {
    let number = box(fill: if n.check { white } else { ink }, stroke: 1.1pt + ink, radius: if n.check { 3.2mm } else { 0.6mm },
      width: if n.number.len() < 3 { 7.4mm } else { auto }, inset: (x: 1mm), outset: (y: 1.3mm), align(center, text(fill: if n.check { ink } else { white }, n.number)))
    let inset = if n.check { 3mm } else { 0mm }
    let inner = w - 2 * inset - 9.5mm
    barred(n, block(width: 100%, above: 6mm, below: 4mm, stroke: if n.check { 1.1pt + ink }, inset: inset, {
      block(width: 100%, sticky: true, below: 3mm, grid(columns: (1fr, 8mm), align: (left + horizon, right + horizon), {
        here-is(n)
        [#heading(level: 3, text(size: 11.5pt, {
          number
          [ ]
          h(1mm)
          if n.badge != "" { badge(n.badge, "outline"); [ ]; h(0.8mm) }
          fit-heading(n.title, 28)
        })) #label(n.id)]
      }, tick-box("large")))
      block(width: 100%, inset: (left: 9.5mm), above: 0mm, nodes(n.body, inner))
    }))
  }
}

#block(below: 4mm, heading(level: 1, text(size: 20pt, fit-heading(d.title, 24))))
#for n in d.nodes { node(n, full) }
#block(width: 100%, above: 8mm, breakable: false, stroke: 1.2pt + ink, inset: 3mm, par(strong(d.closing)))
`;
