/** Several materials as one heap: by mass or by volume, water, ground taken and covered, dates. */
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { stages } from '../../../../shared/names.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { Choice, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { HeapFigures } from './heap-figures.tsx';
import { planHeap } from './plan-asks.ts';
import { emptyPortion, type HeapDraft, stageOf } from './plan-draft.ts';
import { PlanResult } from './plan-result.tsx';
import { PortionFields } from './portion-fields.tsx';
import { SpreadFields } from './spread-fields.tsx';
import { usePlanWords } from './use-plan-words.ts';
import './plan.css';

interface HeapPlanProps {
  readonly draft: HeapDraft;
  readonly change: (part: Partial<HeapDraft>) => void;
  readonly units: PlanUnits;
}

export function HeapPlan({ draft, change, units }: HeapPlanProps) {
  const { text } = usePlanWords();
  const reader = useReader();
  const planned = planHeap(draft, units, reader.timeZone);
  const fields = { draft, change, wrong: (pointer: string) => planned.errors.get(pointer) };
  return (
    <div class="plan-two">
      <form class="form" onSubmit={(event) => event.preventDefault()}>
        <Choice
          legend={text('page-plan.heap.by')}
          value={draft.by}
          choices={[
            ['mass', text('page-plan.heap.by.mass')],
            ['volume', text('page-plan.heap.by.volume')],
          ]}
          onValue={(by) => change({ by })}
        />
        <p class="hint">{text('page-plan.heap.by.hint')}</p>
        {draft.by !== '' && <Portions by={draft.by} {...fields} />}
        <WaterRow {...fields} />
        <Choice
          legend={text('page-plan.heap.stage')}
          value={stageOf(draft)}
          choices={stages.map((stage) => [stage, text('page-plan.heap.stage.of', { stage })] as const)}
          onValue={(stage) => change({ stage })}
        />
        <GroundRow {...fields} />
        <SpreadFields {...fields} />
        <CourseRow {...fields} />
      </form>
      <PlanResult
        planned={planned}
        waitsFor={draft.by === '' ? text('page-plan.heap.waits.by') : text('page-plan.heap.waits.materials')}
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
  const { text } = usePlanWords();
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
          {text('page-plan.heap.more')}
        </button>
      )}
    </>
  );
}

function WaterRow({ draft, change, wrong }: HeapFieldsProps) {
  const { text } = usePlanWords();
  return (
    <div class="field-row">
      <MeasureField
        label={text('page-plan.moisture-wanted')}
        unitNote={text('page-plan.wet-basis')}
        kind="share"
        value={draft.target}
        onValue={(target) => change({ target })}
        hint={text('page-plan.heap.target.hint')}
        error={wrong('/moistureTarget')}
      />
      <MeasureField
        label={text('page-plan.diluted-starter')}
        kind="volumeL"
        value={draft.starter}
        onValue={(starter) => change({ starter })}
        error={wrong('/starterL')}
      />
    </div>
  );
}

function GroundRow({ draft, change, wrong }: HeapFieldsProps) {
  const { text } = usePlanWords();
  return (
    <div class="field-row">
      <MeasureField
        label={text('page-plan.heap.depth')}
        kind="depthM"
        value={draft.depth}
        onValue={(depth) => change({ depth })}
        hint={text('page-plan.heap.depth.hint')}
        error={wrong('/depthM')}
      />
      <MeasureField
        label={text('page-plan.heap.width')}
        kind="lengthM"
        value={draft.width}
        onValue={(width) => change({ width })}
        error={wrong('/widthM')}
      />
    </div>
  );
}

function CourseRow({ draft, change, wrong }: HeapFieldsProps) {
  const { text } = usePlanWords();
  return (
    <div class="field-row">
      <TextField
        label={text('page-plan.heap.laid-on')}
        type="datetime-local"
        hint={text('page-plan.heap.laid-on.hint')}
        value={draft.startAt}
        onValue={(startAt) => change({ startAt })}
        error={wrong('/startAt')}
      />
      <MeasureField
        label={text('page-plan.heap.air')}
        kind="tempC"
        value={draft.air}
        onValue={(air) => change({ air })}
        hint={text('page-plan.heap.air.hint')}
        error={wrong('/airC')}
      />
    </div>
  );
}
