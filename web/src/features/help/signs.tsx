import { Section } from './section.tsx';
import { DrawnPile, Phases, Severities, Tones } from './signs-parts.tsx';

export function Signs() {
  return (
    <>
      <Section of="signs.tones">
        <Tones />
      </Section>
      <Section of="signs.mound">
        <DrawnPile />
      </Section>
      <Section of="signs.severities">
        <Severities />
      </Section>
      <Section of="signs.phases">
        <Phases />
      </Section>
      <Section of="signs.work" />
      <Section of="signs.live" />
    </>
  );
}
