import { stages } from '../../../../shared/names.ts';
import { useHelp } from './help-texts.tsx';
import { Section, Terms } from './section.tsx';
import './help.css';

const usual = ['length', 'comfort', 'act', 'loss', 'moisture', 'depth'] as const;
const named = [
  'starter',
  'lot',
  'pile',
  'batch',
  'core',
  'moisture',
  'turn',
  'spread',
  'squeeze',
  'stall',
  'heating',
  'air',
  'ready',
  'lineage',
] as const;
const words = named.map((word) => [`page-help.stages.word.${word}`, `page-help.stages.word.${word}.is`] as const);

export function Stages() {
  return (
    <>
      <Section of="stages.four" />
      <Section of="stages.usual">
        <Usual />
      </Section>
      <Section of="stages.words">
        <Terms of={words} />
      </Section>
    </>
  );
}

function Usual() {
  const { text } = useHelp();
  return (
    <table class="help-table">
      <thead>
        <tr>
          <td />
          {stages.map((stage) => (
            <th scope="col" key={stage}>
              {text(`page-help.stage.${stage}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {usual.map((fact) => (
          <tr key={fact}>
            <th scope="row">{text(`page-help.stages.usual.${fact}`)}</th>
            {stages.map((stage) => (
              <td key={stage}>{text(`page-help.stages.usual.${fact}.${stage}`)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
