import { html, type Markup } from './markup.ts'

/** The look of a sheet to print and write on: black on white, ruled, boxes for a wet hand; A4 and Letter alike. */
export const SHEET_LOOK = `
:root { color-scheme: only light; }
* { box-sizing: border-box; }
html { font: 100%/1.4 system-ui, "Liberation Sans", "DejaVu Sans", sans-serif; }
body { margin: 0; background: #fff; color: #000; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
main { max-width: 50rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.25rem; margin: 2rem 0 .25rem; border-top: 3px solid #000; padding-top: .5rem; }
h3 { font-size: 1rem; margin: 1rem 0 .25rem; }
p { margin: .375rem 0; }
.answer { font-weight: 600; }
.stop { border: 3px solid #000; padding: .375rem .625rem; font-weight: 700; }
ul { margin: .375rem 0; padding-left: 1.25rem; } ul.ticks { list-style: none; padding: 0; }
ul.ticks li { display: flex; gap: .75rem; align-items: center; min-height: 2.75rem; border-bottom: 1px solid #000; }
ul.ticks .amount { margin-left: auto; font-weight: 700; text-align: right; }
.tick { flex: none; width: 1.75rem; height: 1.75rem; border: 2px solid #000; }
.facts, .abreast { display: flex; flex-wrap: wrap; gap: 0 1.5rem; } .facts > div { flex: 1 1 18rem; } .abreast > .table { flex: 1 1 20rem; }
.table { overflow-x: auto; margin: .75rem 0; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; padding-bottom: .25rem; }
th, td { border: 1px solid #000; padding: .25rem .375rem; height: 2.75rem; text-align: left; vertical-align: middle; }
thead th { height: auto; font-size: .875rem; vertical-align: bottom; border-bottom-width: 2px; }
.number { text-align: right; white-space: nowrap; } .word.short { white-space: nowrap; }
thead th.word.short { white-space: normal; } tbody th { font-weight: 600; } td.short { min-width: 3.5rem; }
.gather th, .gather td { height: 2rem; } .gather td { white-space: normal; }
.vine { display: inline-flex; align-items: center; gap: .25rem; margin-right: .5rem; } .vine .tick { width: 1.125rem; height: 1.125rem; border-width: 1.5px; }
td > .tick { display: inline-block; vertical-align: middle; }
dl.blanks { display: flex; flex-wrap: wrap; gap: .5rem 1.25rem; margin: .75rem 0; }
dl.blanks div { flex: 1 1 12rem; display: flex; align-items: end; gap: .5rem; min-height: 2.5rem; border-bottom: 1px solid #000; }
dl.blanks dt { white-space: normal; } dl.blanks dd { margin: 0; min-width: 6rem; flex: 1; }
code { font-family: ui-monospace, "Liberation Mono", "DejaVu Sans Mono", monospace; font-size: .8125rem; }
.whole { white-space: nowrap; }
:focus-visible { outline: 3px solid #000; outline-offset: 2px; }
footer { margin-top: 1.5rem; border-top: 1px solid #000; font-size: .875rem; }
@media screen and (max-width: 500px) {
  .table { overflow: visible; } table { table-layout: fixed; }
  th, td { padding: .25rem; } thead th { font-size: .75rem; } .table:not(.gather .table) thead th { writing-mode: vertical-rl; } td.short { min-width: 0; } .number, .word.short { white-space: normal; }
  .vine { margin-right: .125rem; gap: .125rem; }
}
@media print {
  html { font-size: 10pt; line-height: 1.3; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 1.25rem; margin: 0; } h2 { border-top-width: 2px; margin: 1rem 0 0; padding-top: .125rem; } h3 { margin: .25rem 0 0; }
  p, ul { margin: .125rem 0; } .facts, .abreast { flex-wrap: nowrap; } .facts > div { flex: 1 1 0; } .abreast > .table { flex: 1 1 0; }
  .table { overflow: visible; margin: .375rem 0; }
  /* Lines as far apart as on ruled paper: most blocks then take one sheet. */
  th, td { height: 6.5mm; padding: 0 .375rem; } .gather th, .gather td { height: 4.75mm; } thead th { padding: .125rem .375rem; overflow-wrap: normal; } .size { float: right; margin-top: -1.5rem; }
  .tick { width: 5mm; height: 5mm; } .vine .tick { width: 3.25mm; height: 3.25mm; }
  dl.blanks { margin: .375rem 0; } dl.blanks div { min-height: 8mm; flex-basis: 9rem; } dl.blanks dd { min-width: 3rem; }
  thead { display: table-header-group; }
  tr, li, p, dl, footer { break-inside: avoid; } footer, .type-in, .again { break-before: avoid; } h2, h3, caption, thead { break-after: avoid; }
  .abreast { break-inside: auto; } code { font-size: .75rem; } footer { margin-top: .25rem; }
  section.part ~ section.part { break-before: page; } section.part ~ section.part h2 { margin-top: 0; }
}
@page { margin: 10mm; }
`

/** What is to be filled in by hand. */
export const blanks = (titles: readonly string[]): Markup => html`<dl class="blanks">
${titles.map((title) => html`<div><dt>${title}</dt><dd></dd></div>\n`)}</dl>
`
