/** How much starter for how much liquid, in either reading of 1:N, and whether what was measured fits. */
import { useState } from 'preact/hooks';
import type { DilutionPlan } from '../../../../core/plan/dilution.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { figure, measureText } from '../../../../shared/measure.ts';
import { fallback } from '../../../../shared/messages/language.ts';
import { useOtherLanguage } from '../../data/language.ts';
import { type Pour, pours } from '../../data/plan-units.ts';
import { noBreak } from '../../ui/format/temperature.ts';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField, useRestated } from '../../ui/parts/measure-field.tsx';
import { emptyStarter, planStarter, type StarterDraft } from './plan-asks.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { usePlanWords } from './use-plan-words.ts';
import './plan.css';

export function StarterPlan() {
  const { text } = usePlanWords();
  const [draft, setDraft] = useState<StarterDraft>(emptyStarter);
  const units = useRestated(draft, setDraft, (was, turn) => ({ ...was, liquid: turn('volumeL', was.liquid) }));
  const change = (part: Partial<StarterDraft>) => setDraft({ ...draft, ...part });
  const planned = planStarter(draft, units);
  return (
    <div class="plan-two">
      <StarterFields draft={draft} change={change} errors={planned.errors} />
      <PlanResult planned={planned} waitsFor={text('page-plan.starter.waits')}>
        {(answer) => <StarterFigures answer={answer} units={units} />}
      </PlanResult>
    </div>
  );
}

const pourKeys = Object.keys(pours) as Pour[];

/** A measure of the kitchen says what it holds, as others have others. */
function pourOf(pour: Pour, language: string) {
  const millilitres = new Intl.NumberFormat(language, { maximumSignificantDigits: 3 }).format(pours[pour]);
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
  const language = useOtherLanguage()?.language ?? fallback;
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

function StarterFigures({ answer, units }: { readonly answer: DilutionPlan; readonly units: PlanUnits }) {
  const { text } = usePlanWords();
  const { otherwise } = answer;
  const say = useSayPlan();
  return (
    <Figures
      rows={[
        [text('page-plan.starter.figure.starter'), measureText('starterMl', answer.starterMl, units)],
        [text('page-plan.starter.figure.water'), measureText('volumeL', answer.waterToAddL, units)],
        ...(answer.actualRatio === undefined
          ? []
          : [[text('page-plan.starter.figure.actual'), `1:${figure(answer.actualRatio, 3)}`] as const]),
        [
          text('page-plan.starter.figure.otherwise'),
          measureText('starterMl', otherwise.starterMl, units),
          say(otherwise.meaning),
        ],
      ]}
    />
  );
}
