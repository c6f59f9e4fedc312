/** The key to the signs, as it stands on a page itself. */
import { MoundKey } from '../../ui/mound/mound-key.tsx';
import { useHelp } from './help-texts.tsx';
import { Lines } from './section.tsx';
import { Phases, Severities, Tones } from './signs-parts.tsx';

const parts = [
  ['tones', Tones],
  ['mound', MoundKey],
  ['severities', Severities],
  ['phases', Phases],
  ['work', null],
] as const;

export function SignsKey() {
  const { text } = useHelp();
  return (
    <>
      {parts.map(([name, Shown]) => (
        <section key={name} aria-labelledby={`key-${name}`}>
          <h3 class="sub-head" id={`key-${name}`}>
            {text(`page-help.signs.${name}.title`)}
          </h3>
          <Lines of={`signs.${name}`} />
          {Shown && <Shown />}
        </section>
      ))}
    </>
  );
}
