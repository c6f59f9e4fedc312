/** How much ground a heap shall cover, or how much of it is wanted in all. */
import { Choice } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { wantedKinds } from './plan-asks.ts';
import type { HeapDraft } from './plan-draft.ts';
import { usePlanWords } from './use-plan-words.ts';

interface SpreadProps {
  readonly draft: HeapDraft;
  readonly change: (part: Partial<HeapDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

export function SpreadFields({ draft, change, wrong }: SpreadProps) {
  const { text } = usePlanWords();
  return (
    <details class="more">
      <summary>{text('page-plan.spread')}</summary>
      <Choice
        legend={text('page-plan.spread.on')}
        value={draft.spread}
        choices={[
          ['none', text('page-plan.spread.none')],
          ['rate', text('page-plan.spread.rate')],
          ['depth', text('page-plan.spread.depth')],
        ]}
        onValue={(spread) => change({ spread, spreadAmount: '' })}
      />
      {draft.spread !== 'none' && (
        <MeasureField
          label={text('page-plan.spread.amount', { by: draft.spread === 'rate' ? 'rate' : 'other' })}
          kind={draft.spread === 'rate' ? 'rateKgM2' : 'depthM'}
          value={draft.spreadAmount}
          onValue={(spreadAmount) => change({ spreadAmount })}
          error={wrong(draft.spread === 'rate' ? '/spread/rateKgM2' : '/spread/depthM')}
        />
      )}
      <Choice
        legend={text('page-plan.wanted')}
        value={draft.wanted}
        choices={[
          ['as-given', text('page-plan.wanted.as-given')],
          ['mass', text('page-plan.wanted.mass')],
          ['volume', text('page-plan.wanted.volume')],
          ['area', text('page-plan.wanted.area')],
        ]}
        onValue={(wanted) => change({ wanted, wantedAmount: '' })}
      />
      {draft.wanted !== 'as-given' && (
        <MeasureField
          label={text('page-plan.wanted.amount')}
          kind={wantedKinds[draft.wanted]}
          value={draft.wantedAmount}
          onValue={(wantedAmount) => change({ wantedAmount })}
          hint={draft.wanted === 'area' ? text('page-plan.wanted.area.hint') : undefined}
          error={wrong(`/wanted/${wantedKinds[draft.wanted]}`) ?? wrong('/spread')}
        />
      )}
    </details>
  );
}
