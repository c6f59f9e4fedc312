/** How much starter for how much liquid, in either reading of 1:N, and whether what was measured fits. */
import type { DilutionPlan } from '../../../../core/plan/dilution.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { figuresMeasured } from '../../../../shared/figures-measured.ts';
import { figure, type MeasureKind, measureText, type Units } from '../../../../shared/measure.ts';
import { type PourName, pours } from '../../../../shared/pours.ts';
import { language } from '../../data/language.ts';
import { noBreak } from '../../ui/format/temperature.ts';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { planStarter } from './plan-asks.ts';
import type { StarterDraft } from './plan-draft.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { usePlanWords } from './use-plan-words.ts';
import './plan.css';

interface StarterPlanProps {
  readonly draft: StarterDraft;
  readonly change: (part: Partial<StarterDraft>) => void;
  readonly units: PlanUnits;
}

export function StarterPlan({ draft, change, units }: StarterPlanProps) {
  const { text } = usePlanWords();
  const planned = planStarter(draft, units);
  // Whoever measures in fluid ounces is answered in them.
  const said = { ...units, starter: pours[draft.measuredIn] };
  return (
    <div class="plan-two">
      <StarterFields draft={draft} change={change} errors={planned.errors} />
      <PlanResult planned={planned} units={said} waitsFor={text('page-plan.starter.waits')}>
        {(answer) => <StarterFigures answer={answer} units={said} />}
      </PlanResult>
    </div>
  );
}

const pourKeys = Object.keys(pours) as PourName[];

/** A measure of the kitchen says what it holds, as others have others. */
function pourOf(pour: PourName, language: string) {
  const millilitres = new Intl.NumberFormat(language, { maximumSignificantDigits: 3 }).format(pours[pour].ml);
  return {
    pour: pour === 'fl-oz' ? 'floz' : pour === 'gal' ? 'other' : pour,
    eachText: `${millilitres}${noBreak}mL`,
  } as const;
}

interface StarterFieldsProps {
  readonly draft: StarterDraft;
  readonly change: (part: Partial<StarterDraft>) => void;
  readonly errors: ReadonlyMap<string, string>;
}

function StarterFields({ draft, change, errors }: StarterFieldsProps) {
  const { text } = usePlanWords();
  const wrong = (pointer: string, text: string) => (text.trim() === '' ? undefined : errors.get(pointer));
  const partsText = draft.ratio.trim() || 'N';
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <MeasureField
        label={text('page-plan.starter.liquid')}
        unitNote={text('page-plan.starter.liquid.note')}
        kind="volumeL"
        value={draft.liquid}
        onValue={(liquid) => change({ liquid })}
        hint={text('page-plan.starter.liquid.hint')}
        error={errors.get('/waterL')}
      />
      <TextField
        label={text('page-plan.starter.ratio')}
        inputMode="decimal"
        value={draft.ratio}
        onValue={(ratio) => change({ ratio })}
        error={wrong('/ratio', draft.ratio)}
      />
      <Choice
        legend={text('page-plan.starter.reading', { partsText })}
        value={draft.convention}
        choices={[
          ['part-in', text('page-plan.starter.reading.part-in', { partsText })],
          ['part-plus', text('page-plan.starter.reading.part-plus', { partsText })],
        ]}
        onValue={(convention) => change({ convention })}
      />
      <p class="hint">
        {text('page-plan.starter.means', { reading: draft.convention === 'part-in' ? 'part' : 'other', partsText })}
      </p>
      <div class="field-row">
        <TextField
          label={text('page-plan.starter.measured')}
          hint={text('page-plan.starter.measured.hint')}
          inputMode="decimal"
          value={draft.measured}
          onValue={(measured) => change({ measured })}
          error={wrong('/measuredMl', draft.measured)}
        />
        <PickField
          label={text('page-plan.starter.measured-in')}
          value={draft.measuredIn}
          choices={pourKeys.map((one) => [one, text('page-plan.pour', pourOf(one, language))] as const)}
          onValue={(measuredIn) => change({ measuredIn })}
        />
      </div>
      <details class="more">
        <summary>{text('page-plan.starter.on-hand')}</summary>
        <TextField
          label={text('page-plan.starter.on-hand.amount')}
          unit="mL"
          hint={text('page-plan.starter.on-hand.hint')}
          inputMode="decimal"
          value={draft.onHand}
          onValue={(onHand) => change({ onHand })}
          error={wrong('/onHandMl', draft.onHand)}
        />
      </details>
    </form>
  );
}

function StarterFigures({ answer, units }: { readonly answer: DilutionPlan; readonly units: Units }) {
  const { text } = usePlanWords();
  const { otherwise } = answer;
  const say = useSayPlan(units);
  const amount = (kind: MeasureKind, value: number) => measureText(kind, value, units, figuresMeasured(kind, value));
  return (
    <Figures
      rows={[
        [text('page-plan.starter.figure.starter'), amount('starterMl', answer.starterMl)],
        [text('page-plan.starter.figure.water'), amount('volumeL', answer.waterToAddL)],
        ...(answer.actualRatio === undefined
          ? []
          : [[text('page-plan.starter.figure.actual'), `1:${figure(answer.actualRatio, 3)}`] as const]),
        [text('page-plan.starter.figure.otherwise'), amount('starterMl', otherwise.starterMl), say(otherwise.meaning)],
      ]}
    />
  );
}
