/** How much starter for how much liquid, in either reading of 1:N, and whether what was measured fits. */
import { useState } from 'preact/hooks';
import type { DilutionPlan } from '../../../../core/plan/dilution.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { figure, measureText } from '../../../../shared/measure.ts';
import { pourNames } from '../../data/plan-units.ts';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField, useRestated } from '../../ui/parts/measure-field.tsx';
import { emptyStarter, planStarter, type StarterDraft } from './plan-asks.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import './plan.css';

export function StarterPlan() {
  const [draft, setDraft] = useState<StarterDraft>(emptyStarter);
  const units = useRestated(draft, setDraft, (was, turn) => ({ ...was, liquid: turn('volumeL', was.liquid) }));
  const change = (part: Partial<StarterDraft>) => setDraft({ ...draft, ...part });
  const planned = planStarter(draft, units);
  return (
    <div class="plan-two">
      <StarterFields draft={draft} change={change} errors={planned.errors} />
      <PlanResult planned={planned} waitsFor="Say how much liquid you want, or how much starter you have.">
        {(answer) => <StarterFigures answer={answer} units={units} />}
      </PlanResult>
    </div>
  );
}

interface StarterFieldsProps {
  readonly draft: StarterDraft;
  readonly change: (part: Partial<StarterDraft>) => void;
  readonly errors: ReadonlyMap<string, string>;
}

function StarterFields({ draft, change, errors }: StarterFieldsProps) {
  const wrong = (pointer: string, text: string) => (text.trim() === '' ? undefined : errors.get(pointer));
  const parts = draft.ratio.trim() || 'N';
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <MeasureField
        label="Liquid wanted"
        unitNote="the starter counted in"
        kind="volumeL"
        value={draft.liquid}
        onValue={(liquid) => change({ liquid })}
        hint="The mark to which the vessel is filled."
        error={errors.get('/waterL')}
      />
      <TextField
        label="Ratio 1 to"
        inputMode="decimal"
        value={draft.ratio}
        onValue={(ratio) => change({ ratio })}
        error={wrong('/ratio', draft.ratio)}
      />
      <Choice
        legend={`What “1:${parts}” means to you`}
        value={draft.convention}
        choices={[
          ['part-in', `1 part in ${parts}`],
          ['part-plus', `1 part plus ${parts}`],
        ]}
        onValue={(convention) => change({ convention })}
      />
      <p class="hint">
        {draft.convention === 'part-in'
          ? `One part of starter in ${parts} parts of the finished liquid.`
          : `One part of starter, and ${parts} parts of water beside it.`}{' '}
        Both readings are in use; at strong ratios they differ.
      </p>
      <div class="field-row">
        <TextField
          label="Starter you measured out"
          hint="Leave empty before you measure. Filled in, it is checked against the ratio."
          inputMode="decimal"
          value={draft.measured}
          onValue={(measured) => change({ measured })}
          error={wrong('/measuredMl', draft.measured)}
        />
        <PickField
          label="Measured in"
          value={draft.measuredIn}
          choices={pourNames}
          onValue={(measuredIn) => change({ measuredIn })}
        />
      </div>
      <details class="more">
        <summary>Starting from the starter you have</summary>
        <TextField
          label="Starter on hand"
          unit="mL"
          hint="Without a liquid wanted, all of it is diluted."
          inputMode="decimal"
          value={draft.onHand}
          onValue={(onHand) => change({ onHand })}
          error={wrong('/onHandMl', draft.onHand)}
        />
      </details>
    </form>
  );
}

function StarterFigures({ answer, units }: { readonly answer: DilutionPlan; readonly units: PlanUnits }) {
  const { otherwise } = answer;
  const say = useSayPlan();
  return (
    <Figures
      rows={[
        ['Starter', measureText('starterMl', answer.starterMl, units)],
        ['Water to make it up', measureText('volumeL', answer.waterToAddL, units)],
        ...(answer.actualRatio === undefined
          ? []
          : [['What you measured is really', `1:${figure(answer.actualRatio, 3)}`] as const]),
        ['Read the other way', measureText('starterMl', otherwise.starterMl, units), say(otherwise.meaning)],
      ]}
    />
  );
}
