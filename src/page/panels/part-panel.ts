import { SPECIES } from '../../shop/wood/species.ts';
import { byId, el } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { type JobField, JobFields, keyField } from './job-field.ts';

const WOODS = 'woods';

const PAIR_CHOICES = [
  { value: '', label: 'all alike' },
  { value: 'identical', label: 'pairs of the same shape' },
  { value: 'mirrored', label: 'one half mirrored' },
];

/** Name, copies, wood and allowances: what a job says once for the whole part. */
export class PartPanel {
  private readonly fields: JobFields;
  private shownUnit = '';

  constructor(private readonly store: Store) {
    this.fields = new JobFields(byId('part-fields'), store);
    byId('part-fields').after(
      el(
        'datalist',
        { id: WOODS },
        ...SPECIES.map(({ name }) => el('option', { value: name.toLowerCase() })),
      ),
    );
    store.onChange(() => this.draw());
  }

  private draw(): void {
    const { evaluated } = this.store;
    if (!evaluated) return;
    const { unit } = evaluated.part.rule;
    if (unit !== this.shownUnit) this.fields.show(partFields(unit));
    else this.fields.fill();
    this.shownUnit = unit;
  }
}

const partFields = (unit: string): readonly JobField[] => [
  keyField('name', 'part'),
  keyField('copies', 'quantity'),
  keyField('copies are', 'pair', { choices: PAIR_CHOICES }),
  keyField('wood', 'stock.species', { list: WOODS }),
  keyField(`thickness, ${unit}`, 'stock.thickness'),
  keyField(`width of the board, ${unit}`, 'stock.width'),
  keyField(`length of the board, ${unit}`, 'stock.length'),
  keyField('grain, degrees from the reference line', 'stock.grain'),
  keyField(`saw line outside the finished line, ${unit}`, 'allowance.saw'),
  keyField('finest mark of your rule', 'graduation'),
  keyField('notes', 'notes'),
];
