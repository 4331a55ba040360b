/** The look of every page: one column, white space, no boxes; colours repeat what a word or a shape says. */
export const LOOK = `
:root {
  color-scheme: light dark;
  --paper: #fcfcfa; --ink: #23272b; --quiet: #585f66; --line: #d9dbd6; --shade: #f0f1ed;
  --first: #2b5c8a; --second: #9a5a12; --third: #74406b; --good: #2f6b45; --bad: #a3302a; --cover: #cfe0ee;
  --band: #f3e9d8; --span: #e3e8dc; --spread: #dde1e4;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #16191c; --ink: #e7e7e2; --quiet: #a9afb5; --line: #3a4046; --shade: #20252a;
    --first: #86b6e3; --second: #e0ab66; --third: #d19fc6; --good: #86c79d; --bad: #f0938a; --cover: #23435f;
    --band: #3d3322; --span: #2c3a2d; --spread: #333b43;
  }
}
* { box-sizing: border-box; }
html { font: 100%/1.5 system-ui, "Liberation Sans", "DejaVu Sans", sans-serif; -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
main { max-width: 62rem; margin: 0 auto; padding: 2.5rem 1rem 4rem; }
h1 { font-size: 1.7rem; line-height: 1.2; font-weight: 600; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; font-weight: 600; margin: 3rem 0 .5rem; }
h3 { font-size: 1rem; font-weight: 600; margin: 2rem 0 .25rem; }
p { margin: .5rem 0; max-width: 40rem; }
.about, .caution, footer, .quiet { color: var(--quiet); font-size: .875rem; }
.answer { font-size: 1.125rem; margin: 1.25rem 0 0; }
a { color: var(--first); }
nav ul { list-style: none; padding: 0; margin: 1.5rem 0 0; display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; }
:focus-visible { outline: 2px solid var(--first); outline-offset: 2px; }
.table { overflow-x: auto; margin: 1rem 0; }
table { border-collapse: collapse; font-size: .9375rem; }
caption { text-align: left; color: var(--quiet); font-size: .875rem; padding-bottom: .375rem; }
th, td { padding: .25rem 1.25rem .25rem 0; vertical-align: top; text-align: left; font-weight: 400; }
thead th { color: var(--quiet); font-size: .8125rem; vertical-align: bottom; border-bottom: 1px solid var(--line); }
tr + tr > * { border-top: 1px solid var(--shade); }
.number { text-align: right; white-space: nowrap; }
.word { min-width: 9rem; overflow-wrap: anywhere; } .word.short { min-width: 0; } thead .word { overflow-wrap: normal; }
td.short, tbody .short { white-space: nowrap; }
.good { color: var(--good); } .bad { color: var(--bad); font-weight: 600; } .doubtful { color: var(--second); }
figure { margin: 1.25rem 0; max-width: 46rem; }
figcaption { font-size: .875rem; color: var(--quiet); }
details { margin: .75rem 0; } summary { cursor: pointer; color: var(--quiet); font-size: .875rem; padding: .375rem 0; }
code { font: .875rem ui-monospace, "Liberation Mono", "DejaVu Sans Mono", monospace; }
.whole { white-space: nowrap; }
.due { list-style: none; padding: 0; margin: .75rem 0; max-width: 40rem; } .due > li { margin: 0 0 1.25rem; } .due p { margin: .25rem 0; }
ul.plain { padding-left: 1.1rem; max-width: 40rem; } ul.plain li { margin: .25rem 0; }
dl.facts { display: grid; grid-template-columns: 5rem 1fr; gap: .125rem .75rem; margin: .375rem 0 0; font-size: .875rem; max-width: 44rem; }
dl.facts dt { color: var(--quiet); } dl.facts dd { margin: 0; min-width: 0; }
footer { margin-top: 3.5rem; border-top: 1px solid var(--line); padding-top: .75rem; }
svg { display: block; width: 100%; height: auto; }
svg.narrow { display: none; }
svg text { fill: var(--quiet); font: 12px system-ui, "Liberation Sans", "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
svg .name { fill: var(--ink); paint-order: stroke; stroke: var(--paper); stroke-width: 3px; } svg .end { text-anchor: end; } svg .middle { text-anchor: middle; }
svg .grid { stroke: var(--line); stroke-width: 1; fill: none; } svg .axis { stroke: var(--quiet); stroke-width: 1; }
svg .line { fill: none; stroke-width: 1.75; stroke-linejoin: round; } svg .dashed { stroke-dasharray: 5 4; }
svg .thin { stroke-width: 1.25; } svg .dotted { stroke-dasharray: 1.5 3; } svg .outline { fill: none; stroke-width: 1; } svg .paper { fill: var(--paper); }
svg .first { stroke: var(--first); } svg .second { stroke: var(--second); } svg .third { stroke: var(--third); }
svg .bad-line { stroke: var(--bad); } svg .quiet-line { stroke: var(--quiet); }
svg .fill-first { fill: var(--first); } svg .fill-second { fill: var(--second); } svg .fill-third { fill: var(--third); }
svg .fill-bad { fill: var(--bad); } svg .fill-quiet { fill: var(--quiet); }
svg .hollow { fill: var(--paper); stroke-width: 1.75; }
svg .spread { fill: var(--spread); } svg .cover { fill: var(--cover); } svg .band { fill: var(--band); } svg .span { fill: var(--span); }
@media screen and (max-width: 500px) {
  main { padding-top: 1.5rem; }
  h2 { margin-top: 2.25rem; }
  svg.wide { display: none; } svg.narrow { display: block; }
  .table { overflow: visible; }
  table { position: relative; }
  table, caption, tbody, tr { display: block; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tbody tr { display: grid; grid-template-columns: repeat(6, minmax(0, 1fr)); gap: .25rem .75rem; padding: .5rem 0; border-top: 1px solid var(--line); }
  tbody th, tbody td { grid-column: 1 / -1; align-self: end; }
  tbody th, tbody td, tbody .number, tbody .short, tbody td.short { padding: 0; text-align: left; white-space: normal; min-width: 0; }
  tbody .third { grid-column: span 2; } tbody .half { grid-column: span 3; }
  tr + tr > * { border-top: 0; }
  tbody th { font-weight: 600; } tbody td:empty { display: none; }
  td::before, th.number::before { content: attr(data-name); display: block; color: var(--quiet); font-size: .8125rem; font-weight: 400; line-height: 1.3; overflow-wrap: anywhere; }
  td.word:not(.short)::before, .line::before { display: inline; margin-right: .5rem; }
}
@media print {
  :root { --paper: #fff; --ink: #000; --quiet: #444; --line: #bbb; --shade: #eee; --first: #1f4a73; --second: #7d470b; --third: #5e2f56; --good: #20522f; --bad: #8c1f1a; --cover: #d5e4f0; --band: #f4ecdd; --span: #e6ebdf; --spread: #dcdcdc; color-scheme: light; }
  html { font-size: 9.5pt; line-height: 1.4; }
  main { max-width: none; padding: 0; }
  nav, summary, footer, h2:has(+ details:not(.filed, [open])) { display: none; }
  details.filed::details-content { content-visibility: visible; display: block; block-size: auto; }
  svg.wide { display: block; max-width: 130mm; } svg.narrow { display: none; }
  section:has(> .beside) { display: grid; grid-template-columns: 1fr 60mm; column-gap: 6mm; break-inside: avoid; }
  section > * { grid-column: 1; } section > .beside { grid-area: 1 / 2 / span 40; } section:has(> .beside) > :not(h2) { margin-block: .125rem; }
  .beside svg.wide { display: none; } .beside svg.narrow { display: block; } .beside figure { margin: 0; }
  .table { overflow: visible; } .word { min-width: 6rem; } thead th.number { white-space: normal; overflow-wrap: normal; }
  th, td { padding-right: .75rem; }
  thead { display: table-header-group; break-after: avoid; }
  tr, p, li, figure, article { break-inside: avoid; } h2, h3, caption, p:has(+ .table), p:has(+ figure) { break-after: avoid; }
  h2 { margin-top: 1.5rem; } h3 { margin-top: 1rem; } .table, figure { margin: .5rem 0; }
  tbody tr:first-child, tbody tr:nth-child(2):not(:last-child), tbody tr:nth-last-child(2), tbody tr:nth-last-child(3) { break-after: avoid; }
}
@page { margin: 16mm; }
`
