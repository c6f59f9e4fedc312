/** What each sign stands for, with the very marks and drawings that the pages use. */
import { type PileSummary, tones } from '../../../../shared/contracts/piles.ts';
import { stageLimits } from '../../../../shared/stage.ts';
import { phaseSchema, severities } from '../../../../shared/warning.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { MoundKey } from '../../ui/mound/mound-key.tsx';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { useHelp } from './help-texts.tsx';
import { Terms } from './section.tsx';
import './help.css';

export function Tones() {
  const { text } = useHelp();
  return (
    <ul class="help-terms">
      {tones.map((tone) => (
        <li key={tone}>
          <span>
            <ToneMark tone={tone} />
          </span>
          <p>{text(`page-help.signs.tone.${tone}`)}</p>
        </li>
      ))}
    </ul>
  );
}

const severityTerms = severities.map(
  (severity) => [`page-help.signs.severity.${severity}.name`, `page-help.signs.severity.${severity}`] as const,
);
const phaseTerms = phaseSchema.options.map(
  (phase) => [`page-help.signs.phase.${phase}.name`, `page-help.signs.phase.${phase}`] as const,
);

export const Severities = () => <Terms of={severityTerms} />;
export const Phases = () => <Terms of={phaseTerms} />;

/** An invented pile that shows every sign at once: top silent, base doubted. */
const shown: Pick<PileSummary, 'id' | 'stage' | 'positions' | 'batch'> = {
  id: 'help',
  stage: 'bran',
  positions: {
    top: { silent: true, temperatureC: 33 },
    core: { silent: false, temperatureC: stageLimits.bran.comfortMaxC },
    edge: { silent: false, temperatureC: 30 },
    base: { silent: false, temperatureC: 63, doubted: { fromC: 38, fromAt: '2031-06-11T10:00:00Z' } },
    air: { silent: false, temperatureC: 18 },
  },
  batch: {
    id: 'help',
    startedAt: '2031-06-08T10:00:00Z',
    progress: 40,
    phase: 'active',
    phaseReason: 'reached-working-heat',
    moisture: { frac: 0.58, sdFrac: 0.04 },
  },
};

export function DrawnPile() {
  return (
    <div class="help-pair">
      <Mound pile={shown} cover="breathable" />
      <MoundKey />
    </div>
  );
}
