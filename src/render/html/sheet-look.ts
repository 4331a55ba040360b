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
  html { font-size: 10pt; } .gather th, .gather td { height: 1.625rem; }
  main { max-width: none; padding: 0; }
  .table { overflow: visible; }
  thead { display: table-header-group; }
  tr, li, p, dl, footer, .again { break-inside: avoid; } footer, .type-in { break-before: avoid; } h2, h3, caption, thead { break-after: avoid; }
  section + section.part { break-before: page; } section.part h2 { margin-top: 0; }
}
@page { margin: 12mm; }
`
