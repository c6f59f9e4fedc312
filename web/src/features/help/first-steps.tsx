import { cautions } from '../../../../core/profiles/cautions.ts';
import { SaidCaution, Section } from './section.tsx';

export function FirstSteps() {
  return (
    <>
      <Section of="first-steps.practise" />
      <Section of="first-steps.lay" first={<SaidCaution of={cautions.dryBran} />} />
      <Section of="first-steps.measure" />
      <Section of="first-steps.read" />
      <Section of="first-steps.notify" />
      <Section of="first-steps.judge" first={<SaidCaution of={cautions.smelling} />} />
    </>
  );
}
