/**
 * The page's style: the printed sheet's look on a screen, and on paper when the page itself is printed.
 *
 * Signal colours as in `template.ts`: print equivalents of ANSI Z535.1 and ISO 3864-4 (from memory); word, symbol and
 * border tell them apart without colour.
 */
export const STYLE = `
:root { --ink: #111; --paper: #fff; --grey: #595959; --pale: #e8e8e8; --rule: #6b6b6b; --link: #004a91; --focus: #005eb8; --has: #fff6d6; --outside: #fff2f2; color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 "Noto Sans", "Segoe UI", Roboto, Helvetica, Arial, sans-serif; overflow-wrap: anywhere; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
main { max-width: 54rem; margin: 0 auto; padding: 0 1.5rem 3rem; }
.bar { position: sticky; top: 0; z-index: 2; display: flex; flex-wrap: wrap; gap: .3rem 1.5rem; justify-content: space-between; padding: .5rem 1.5rem; background: var(--paper); border-bottom: 2px solid var(--ink); font-size: .875rem; }
.tools { max-width: 54rem; margin: 1rem auto 0; padding: 0 1.5rem; color: var(--grey); font-size: .875rem; }
.tools p { margin: 0 0 .5rem; }
button { font: inherit; min-height: 2.75rem; padding: .4rem 1.1rem; border: 2px solid var(--ink); border-radius: 3px; background: var(--paper); color: var(--ink); cursor: pointer; }
:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
h1 { font-size: 2rem; line-height: 1.2; margin: 1.2rem 0 1rem; }
h2 { font-size: 1.25rem; margin: 2.2rem 0 .8rem; scroll-margin-top: 4rem; }
h2.section { background: var(--ink); color: var(--paper); padding: .5rem .8rem; }
h3 { font-size: 1.1rem; margin: 1.2rem 0 .5rem; }
p { margin: .55rem 0; }
a { color: var(--link); }
.contents ul { list-style: none; margin: 0 0 1.2rem; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1.2rem; }
.contents a { display: inline-block; padding: .25rem 0; }
.facts { margin: 0 0 1rem; }
.fact { display: grid; grid-template-columns: minmax(9rem, 26%) 1fr; gap: 0 .8rem; border-bottom: 1px solid var(--rule); padding: .3rem 0; }
.fact dt { color: var(--grey); }
.fact dd { margin: 0; font-weight: 700; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; min-width: 34rem; table-layout: fixed; font-size: .94rem; }
th, td { border: 1px solid var(--rule); padding: .42rem .55rem; text-align: left; vertical-align: top; overflow-wrap: anywhere; hyphens: auto; }
thead th { background: var(--pale); font-size: .85rem; vertical-align: middle; }
td:has(input), td:has(.chip) { line-height: 2; }
.tall td, .tall th { vertical-align: middle; }
.centre { text-align: center; }
.quantity { white-space: nowrap; }
code { font: inherit; font-weight: 700; }
input[type="checkbox"] { appearance: none; width: 1.5rem; height: 1.5rem; margin: 0 .4rem 0 0; vertical-align: -.38rem; border: 2px solid var(--ink); border-radius: 3px; background: var(--paper); }
input[type="checkbox"].large { flex: none; width: 2.3rem; height: 2.3rem; margin: 0 0 0 1rem; }
input[type="checkbox"]:checked { background: #fff url("data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E%3Cpath d='M2.5 8.5 6.5 12.5 13.5 3.5' fill='none' stroke='%23111' stroke-width='2.6'/%3E%3C/svg%3E") center / 92% no-repeat; }
.tick { display: inline-block; max-width: 100%; min-height: 1.9rem; }
.write { font: inherit; min-height: 2.6rem; padding: .2rem .5rem; border: 2px solid var(--ink); border-radius: 3px; background: var(--paper); color: var(--ink); }
.write.short { width: 7.5rem; } .write.medium { width: 13rem; max-width: 100%; } .write.cell { width: 100%; border-width: 1px; border-color: var(--grey); }
.write.outside { border-width: 4px; border-style: double; border-color: #b00020; background: var(--outside); }
.with-unit { white-space: nowrap; }
.badge { display: inline-block; padding: 0 .45rem; border: 1.5px solid var(--ink); border-radius: 3px; font-size: .82em; font-weight: 700; line-height: 1.5; }
.badge.solid { background: var(--ink); color: var(--paper); }
.chip { display: inline-block; padding: .05rem .55rem; margin: .15rem 0; border: 2px solid var(--ink); border-radius: 4px; white-space: nowrap; background: var(--paper); }
.danger .signal, .badge.danger { background: #c8102e; color: #fff; }
.warning .signal, .badge.warning { background: #ff8200; color: #000; }
.caution .signal, .badge.caution { background: #ffd100; color: #000; }
.notice .signal, .badge.notice { background: #005eb8; color: #fff; }
.badge.danger, .badge.warning, .badge.caution, .badge.notice { border-radius: 0; }
.panel { margin: 1rem 0 .6rem; border: 3px solid var(--ink); background: var(--paper); break-inside: avoid; break-after: avoid; }
.panel p { margin: .5rem .8rem; }
.panel .signal { display: flex; align-items: center; gap: .7rem; margin: 0; padding: .35rem .8rem; border-bottom: 3px solid var(--ink); font-size: 1.3rem; letter-spacing: .04em; }
.panel svg { width: 2rem; height: 1.85rem; }
.danger .cut { fill: #c8102e; } .warning .cut { fill: #ff8200; } .caution .cut { fill: #ffd100; } .notice .cut { fill: #005eb8; }
.step { margin: 1.6rem 0; padding-left: 2.9rem; scroll-margin-top: 4rem; }
.step > .head { display: flex; align-items: center; justify-content: space-between; margin-left: -2.9rem; break-after: avoid; }
.step h3 { margin: 0; }
.number { display: inline-block; min-width: 2.2rem; margin-right: .5rem; padding: 0 .4rem; border: 2px solid var(--ink); border-radius: 3px; background: var(--ink); color: var(--paper); text-align: center; }
.check { border: 2px solid var(--ink); padding: .8rem .8rem .8rem 3.7rem; }
.check .number { border-radius: 1rem; background: var(--paper); color: var(--ink); }
.step:target { outline: 3px solid var(--focus); outline-offset: 6px; }
.act { padding-left: 1.6rem; text-indent: -1.6rem; }
.act > * { text-indent: 0; }
.act .mark { display: inline-block; min-width: 1.3rem; font-weight: 700; }
.act:has(.chip, input) { line-height: 2.1; }
.lead { padding-left: 1.6rem; }
.note { border-left: 3px solid var(--grey); padding-left: .7rem; }
.question { font-weight: 700; }
.frame { margin: .9rem 0; padding: .5rem .8rem; break-inside: auto; }
.frame > .head { margin: 0 0 .4rem; break-after: avoid; }
.outcome { border-left: 5px solid var(--rule); padding: .2rem .8rem; }
.outcome.has { border-color: var(--ink); background: var(--has); outline: 3px solid var(--ink); }
.condition { border: 2px dashed var(--ink); }
.wait { border: 2px solid var(--ink); border-radius: 8px; }
.each { border: 2px solid var(--grey); }
.picture { margin: 1rem 0; text-align: center; break-inside: avoid; }
.picture img { max-width: 100%; max-height: 32rem; }
.drawing svg { display: block; width: 100%; min-width: 30rem; max-width: 48rem; height: auto; margin: 0 auto; background: #fff; }
.drawing { scroll-margin-top: 4rem; }
.drawing details { font-size: .875rem; text-align: left; }
.drawing summary { display: inline-block; min-height: 1.9rem; color: var(--link); cursor: pointer; text-decoration: underline; }
figcaption { font-size: .94rem; }
.closing { margin-top: 2.5rem; padding: .9rem; border: 3px solid var(--ink); font-weight: 700; break-inside: avoid; }
.changed { position: relative; }
.changed::before { content: ""; position: absolute; left: -.9rem; top: 0; bottom: 0; border-left: 4px solid var(--ink); }
.check.changed::before { left: -1.1rem; }
tr.changed::before { content: none; }
tr.changed > :first-child { box-shadow: inset 6px 0 0 var(--ink); }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.draft::before { content: attr(data-draft); position: fixed; inset: 0; display: grid; place-items: center; font: 700 min(22vw, 12rem)/1 sans-serif; color: #0000000f; transform: rotate(-35deg); pointer-events: none; z-index: 3; }
@media (max-width: 40rem) { main { padding: 0 .9rem 2rem; } .step { padding-left: 0; } .check { padding: .8rem; } .step > .head { margin-left: 0; } }
@media print {
  body { font-size: 10.5pt; line-height: 1.4; }
  main { max-width: none; padding: 0; }
  .bar, .tools, .contents { display: none; }
  a { color: inherit; text-decoration: none; }
  a.out::after { content: " (" attr(href) ")"; font-size: .9em; }
  h2, h3 { break-after: avoid; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  table { min-width: 0; }
  .scroll { overflow: visible; }
  .drawing svg { min-width: 0; max-width: 150mm; }
  .drawing details { display: none; }
  input[type="checkbox"] { width: 4mm; height: 4mm; border-width: 1pt; vertical-align: -.6mm; }
  input[type="checkbox"].large { width: 6mm; height: 6mm; }
  .write { min-height: 7mm; border-width: 1pt; }
}
`;
