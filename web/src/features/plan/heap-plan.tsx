/** Several materials as one heap: by mass or by volume, water, ground taken and covered, dates. */
import { useState } from 'preact/hooks';
import { stages } from '../../../../shared/names.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { capital, stageNames } from '../../ui/format/words.ts';
import { Choice, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField, type Turn, useRestated } from '../../ui/parts/measure-field.tsx';
import { HeapFigures } from './heap-figures.tsx';
import { emptyHeap, emptyPortion, type HeapDraft, planHeap, wantedKinds } from './plan-asks.ts';
import { PlanResult } from './plan-result.tsx';
import { PortionFields } from './portion-fields.tsx';
import { SpreadFields } from './spread-fields.tsx';
import './plan.css';

/** What is typed, said in other units. */
function restated(was: HeapDraft, turn: Turn): HeapDraft {
  return {
    ...was,
    starter: turn('volumeL', was.starter),
    depth: turn('depthM', was.depth),
    width: turn('lengthM', was.width),
    air: turn('tempC', was.air),
    wantedAmount: was.wanted === 'as-given' ? was.wantedAmount : turn(wantedKinds[was.wanted], was.wantedAmount),
    spreadAmount: turn(was.spread === 'rate' ? 'rateKgM2' : 'depthM', was.spreadAmount),
    portions: was.portions.map((one) => ({
      ...one,
      amount: turn(was.by === 'volume' ? 'volumeL' : 'massKg', one.amount),
      weight: turn('densityKgM3', one.weight),
    })),
  };
}

export function HeapPlan() {
  const [draft, setDraft] = useState<HeapDraft>(emptyHeap);
  const reader = useReader();
  const units = useRestated(draft, setDraft, restated);
  const change = (part: Partial<HeapDraft>) => setDraft({ ...draft, ...part });
  const planned = planHeap(draft, units, reader.timeZone);
  const fields = { draft, change, wrong: (pointer: string) => planned.errors.get(pointer) };
  return (
    <div class="plan-two">
      <form class="form" onSubmit={(event) => event.preventDefault()}>
        <Choice
          legend="You measure by"
          value={draft.by}
          choices={[
            ['mass', 'Mass, on scales'],
            ['volume', 'Volume, in buckets'],
          ]}
          onValue={(by) => change({ by })}
        />
        <p class="hint">
          Half and half by mass is another heap than half and half by volume: soil weighs six times what bran does.
        </p>
        {draft.by !== '' && <Portions by={draft.by} {...fields} />}
        <WaterRow {...fields} />
        <Choice
          legend="Stage"
          value={draft.stage}
          choices={stages.map((stage) => [stage, capital(stageNames[stage])] as const)}
          onValue={(stage) => change({ stage })}
        />
        <GroundRow {...fields} />
        <SpreadFields {...fields} />
        <CourseRow {...fields} />
      </form>
      <PlanResult
        planned={planned}
        waitsFor={
          draft.by === '' ? 'Say first whether you measure by mass or by volume.' : 'Say how much of each material.'
        }
      >
        {(answer) => <HeapFigures answer={answer} draft={draft} units={units} />}
      </PlanResult>
    </div>
  );
}

interface HeapFieldsProps {
  readonly draft: HeapDraft;
  readonly change: (part: Partial<HeapDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function Portions({ by, draft, change, wrong }: HeapFieldsProps & { readonly by: 'mass' | 'volume' }) {
  const { portions } = draft;
  return (
    <>
      {portions.map((portion, index) => (
        <PortionFields
          key={index}
          index={index}
          by={by}
          portion={portion}
          wrong={wrong}
          onPortion={(part) =>
            change({ portions: portions.map((one, at) => (at === index ? { ...one, ...part } : one)) })
          }
          onRemove={
            portions.length > 1 ? () => change({ portions: portions.filter((_, at) => at !== index) }) : undefined
          }
        />
      ))}
      {portions.length < 20 && (
        <button type="button" onClick={() => change({ portions: [...portions, emptyPortion] })}>
          One more material
        </button>
      )}
    </>
  );
}

function WaterRow({ draft, change, wrong }: HeapFieldsProps) {
  return (
    <div class="field-row">
      <MeasureField
        label="Moisture wanted"
        unitNote="wet basis"
        kind="share"
        value={draft.target}
        onValue={(target) => change({ target })}
        hint="Empty: no water is worked out."
        error={wrong('/moistureTarget')}
      />
      <MeasureField
        label="Diluted starter that goes in"
        kind="volumeL"
        value={draft.starter}
        onValue={(starter) => change({ starter })}
        error={wrong('/starterL')}
      />
    </div>
  );
}

function GroundRow({ draft, change, wrong }: HeapFieldsProps) {
  return (
    <div class="field-row">
      <MeasureField
        label="Depth of the heap"
        kind="depthM"
        value={draft.depth}
        onValue={(depth) => change({ depth })}
        hint="Empty: the most the stage allows."
        error={wrong('/depthM')}
      />
      <MeasureField
        label="Width it may have"
        kind="lengthM"
        value={draft.width}
        onValue={(width) => change({ width })}
        error={wrong('/widthM')}
      />
    </div>
  );
}

function CourseRow({ draft, change, wrong }: HeapFieldsProps) {
  return (
    <div class="field-row">
      <TextField
        label="Laid on"
        type="datetime-local"
        hint="Gives the dates of checks and turns."
        value={draft.startAt}
        onValue={(startAt) => change({ startAt })}
        error={wrong('/startAt')}
      />
      <MeasureField
        label="Air you expect"
        kind="tempC"
        value={draft.air}
        onValue={(air) => change({ air })}
        hint="Tells a warm course from a cool one."
        error={wrong('/airC')}
      />
    </div>
  );
}
