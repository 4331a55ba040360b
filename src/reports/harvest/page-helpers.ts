import { spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { numbers } from '../../render/columns.ts'
import { roughCell } from '../../render/html/figures.ts'
import { list, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import { stepColumns } from './page.ts'
import type { HarvestData } from './report.ts'

/** What a helper should have along. Common practice, no source. */
const BRING = [
  'clippers or small secateurs, if you have them; there are some here',
  'gloves, a hat, shoes with a firm sole, clothes that may get stained',
  'something for rain, and something warm for the morning',
  'water and something to eat',
]

/** Usual cautions for a day of picking. Common practice, no source. */
const MIND = [
  'Clippers cut fingers: keep the other hand where you see it, and close them when you walk.',
  'Wasps sit in the bunches. Tell us before we begin if stings are dangerous to you.',
  'Vines are sprayed during the year. Wear gloves, wash your hands before you eat, and eat no grapes unwashed.',
  'Carry buckets and crates half full or by two if they are heavy for you. Drink often, and rest when you need to.',
  'Keep clear of the tractor. Children and dogs stay with whoever brings them.',
  'Go only into the blocks named here, and only after we have begun.',
]

/** A page to send to those who help with picking: when, where, what to bring, what to mind. */
export const page: PageOf<HarvestData> = ({ data: { day, blocks } }, input) => {
  const { names } = input
  if (!day || day.steps.length === 0)
    return { title: 'Picking day', answer: 'No day of picking is set yet.', content: null }
  const cropOf = (id: string) => blocks.find(({ block }) => block === id)!.crop
  const first = day.steps[0]!
  return {
    title: 'Picking day',
    answer: `${names.site}: ${spokenDate(day.date)}, from ${clockText(first.from)}, about ${counted(day.people, 'picker')}.`,
    content: [
      section(
        'When and where',
        pageTable('Blocks in their order; the times are a guess and count no breaks', day.steps, [
          ...stepColumns(names),
          numbers('crop of the block', ({ block }) => roughCell(cropOf(block), input)),
        ]),
      ),
      section('What to bring', list(BRING)),
      section('Please mind', list(MIND)),
    ],
  }
}
