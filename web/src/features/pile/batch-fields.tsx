/** The questions about a batch: stage, when laid, of what, how deep, how damp, how covered. */
import { useState } from 'preact/hooks';
import { covers, shelters } from '../../../../shared/contracts/domain/batch.ts';
import type { NewPile } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { stages } from '../../../../shared/names.ts';
import { materials } from '../../../../shared/profiles/material-names.ts';
import { readNumber } from '../../data/read-number.ts';
import type { Mutation } from '../../data/use-mutation.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { useLaidNames } from '../../ui/parts/use-laid-names.ts';
import { useLayWords } from './use-lay-words.ts';

export interface BatchDraft {
  readonly stage: (typeof stages)[number];
  /** On the wall clock; empty means now. */
  readonly laidAt: string;
  /** '' is not given, of these as of every text below. */
  readonly material: (typeof materials)[number] | '';
  readonly depthCm: string;
  readonly massKg: string;
  readonly moisturePct: string;
  readonly dosePct: string;
  readonly cover: (typeof covers)[number] | '';
  readonly shelter: (typeof shelters)[number] | '';
}

export const emptyBatch: BatchDraft = {
  stage: 'bran',
  laidAt: '',
  material: '',
  depthCm: '',
  massKg: '',
  moisturePct: '',
  dosePct: '',
  cover: '',
  shelter: '',
};

/** What is sent: only what was filled in; NaN where that is no number, which is then refused beside its field. */
export function batchBody(
  draft: BatchDraft,
  timeZone: string | undefined,
): Pick<NewPile, 'stage' | 'startedAt' | 'recipe'> {
  const laidAtMs = instantOfWall(draft.laidAt, timeZone);
  const scaled = (text: string, by: number) => {
    const value = readNumber(text);
    return value === undefined ? undefined : Number((value * by).toPrecision(12));
  };
  const recipe = Object.fromEntries(
    Object.entries({
      material: draft.material || undefined,
      cover: draft.cover || undefined,
      shelter: draft.shelter || undefined,
      depthM: scaled(draft.depthCm, 0.01),
      massKg: scaled(draft.massKg, 1),
      moistureFrac: scaled(draft.moisturePct, 0.01),
      doseFrac: scaled(draft.dosePct, 0.01),
    }).filter(([, value]) => value !== undefined),
  );
  return { stage: draft.stage, ...(laidAtMs === undefined ? {} : { startedAt: toInstant(laidAtMs) }), recipe };
}

interface BatchFieldsProps {
  readonly draft: BatchDraft;
  readonly onDraft: (change: Partial<BatchDraft>) => void;
  readonly mutation: Mutation;
}

/** What stands in the fold, which opens where something in it is wrong. */
const folded = ['/startedAt', '/recipe/moistureFrac', '/recipe/massKg', '/recipe/doseFrac', '/recipe/cover'];

export function BatchFields({ draft, onDraft, mutation }: BatchFieldsProps) {
  const { text } = useLayWords();
  const names = useLaidNames();
  return (
    <>
      <Choice
        legend={text('page-lay.stage')}
        value={draft.stage}
        choices={stages.map((stage) => [stage, text('page-lay.stage.of', { stage })] as const)}
        onValue={(stage) => onDraft({ stage })}
      />
      <div class="field-row">
        <PickField
          label={text('page-lay.material')}
          value={draft.material}
          choices={[
            ['', text('page-lay.not-given')],
            ...materials.map((material) => [material, names.material(material)] as const),
          ]}
          onValue={(material) => onDraft({ material })}
          error={mutation.fieldError('/recipe/material')}
        />
        <TextField
          label={text('page-lay.depth')}
          unit={text('page-lay.depth.unit')}
          inputMode="decimal"
          value={draft.depthCm}
          onValue={(depthCm) => onDraft({ depthCm })}
          error={mutation.fieldError('/recipe/depthM')}
        />
      </div>
      <Choice
        legend={text('page-lay.shelter')}
        value={draft.shelter}
        choices={shelters.map((shelter) => [shelter, names.shelter(shelter)] as const)}
        onValue={(shelter) => onDraft({ shelter })}
      />
      <FoldedFields draft={draft} onDraft={onDraft} mutation={mutation} />
    </>
  );
}

function FoldedFields({ draft, onDraft, mutation }: BatchFieldsProps) {
  const { text } = useLayWords();
  const names = useLaidNames();
  // Only at first: what is being typed must not fold away.
  const [hasMore] = useState(`${draft.massKg}${draft.moisturePct}${draft.dosePct}${draft.laidAt}` !== '');
  const isFoldWrong = folded.some((pointer) => mutation.fieldError(pointer) !== undefined);
  return (
    <details class="more" open={hasMore || isFoldWrong}>
      <summary>{text('page-lay.more')}</summary>
      <TextField
        label={text('page-lay.laid-at')}
        type="datetime-local"
        hint={text('page-lay.laid-at.hint')}
        value={draft.laidAt}
        onValue={(laidAt) => onDraft({ laidAt })}
        error={mutation.fieldError('/startedAt')}
      />
      <div class="field-row">
        <TextField
          label={text('page-lay.moisture')}
          unit={text('page-lay.moisture.unit')}
          inputMode="decimal"
          value={draft.moisturePct}
          onValue={(moisturePct) => onDraft({ moisturePct })}
          error={mutation.fieldError('/recipe/moistureFrac')}
        />
        <TextField
          label={text('page-lay.mass')}
          unit={text('page-lay.mass.unit')}
          inputMode="decimal"
          value={draft.massKg}
          onValue={(massKg) => onDraft({ massKg })}
          error={mutation.fieldError('/recipe/massKg')}
        />
      </div>
      <div class="field-row">
        <TextField
          label={text('page-lay.dose')}
          unit={text('page-lay.dose.unit')}
          inputMode="decimal"
          value={draft.dosePct}
          onValue={(dosePct) => onDraft({ dosePct })}
          error={mutation.fieldError('/recipe/doseFrac')}
        />
        <PickField
          label={text('page-lay.cover')}
          value={draft.cover}
          choices={[['', text('page-lay.not-given')], ...covers.map((cover) => [cover, names.cover(cover)] as const)]}
          onValue={(cover) => onDraft({ cover })}
          error={mutation.fieldError('/recipe/cover')}
        />
      </div>
    </details>
  );
}
