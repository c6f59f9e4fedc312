/** How much ground a heap shall cover, or how much of it is wanted in all. */
import { Choice } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { type HeapDraft, wantedKinds } from './plan-asks.ts';

interface SpreadProps {
  readonly draft: HeapDraft;
  readonly change: (part: Partial<HeapDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

export function SpreadFields({ draft, change, wrong }: SpreadProps) {
  return (
    <details class="more">
      <summary>For so much ground, or so much in all</summary>
      <Choice
        legend="Spread on beds"
        value={draft.spread}
        choices={[
          ['none', 'Not yet'],
          ['rate', 'At a rate'],
          ['depth', 'At a depth'],
        ]}
        onValue={(spread) => change({ spread, spreadAmount: '' })}
      />
      {draft.spread !== 'none' && (
        <MeasureField
          label={draft.spread === 'rate' ? 'Rate' : 'Depth on the bed'}
          kind={draft.spread === 'rate' ? 'rateKgM2' : 'depthM'}
          value={draft.spreadAmount}
          onValue={(spreadAmount) => change({ spreadAmount })}
          error={wrong(draft.spread === 'rate' ? '/spread/rateKgM2' : '/spread/depthM')}
        />
      )}
      <Choice
        legend="Make the recipe larger or smaller"
        value={draft.wanted}
        choices={[
          ['as-given', 'As given'],
          ['mass', 'To a mass'],
          ['volume', 'To a volume'],
          ['area', 'For an area'],
        ]}
        onValue={(wanted) => change({ wanted, wantedAmount: '' })}
      />
      {draft.wanted !== 'as-given' && (
        <MeasureField
          label="So much is wanted"
          kind={wantedKinds[draft.wanted]}
          value={draft.wantedAmount}
          onValue={(wantedAmount) => change({ wantedAmount })}
          hint={draft.wanted === 'area' ? 'Say above at which rate or depth it is spread.' : undefined}
          error={wrong(`/wanted/${wantedKinds[draft.wanted]}`) ?? wrong('/spread')}
        />
      )}
    </details>
  );
}
