import { cautions } from '../../../../core/profiles/cautions.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { type SectionName, useSayHelp } from './help-texts.tsx';
import { ListedCaution, Section } from './section.tsx';
import { selfHeatingCaution } from './warning-todos.ts';

const groups: readonly (readonly [SectionName, readonly Message[]])[] = [
  [
    'cautions.heat',
    [selfHeatingCaution, cautions.fire, cautions.scald, cautions.hotHandful, cautions.handful, cautions.deep],
  ],
  ['cautions.dust', [cautions.spores, cautions.colouredMould, cautions.smelling, cautions.dryBran]],
  ['cautions.air', [cautions.shedAir, cautions.foulAir, cautions.ammonia]],
  ['cautions.water', [cautions.watering, cautions.unknownHeat]],
  ['cautions.use', [cautions.using, message('caution.hands')]],
];

export function Cautions() {
  const say = useSayHelp();
  return (
    <>
      <Section of="cautions.local" />
      {groups.map(([name, all]) => (
        <Section key={name} of={name} first={all.map((caution) => <ListedCaution key={say(caution)} of={caution} />)} />
      ))}
    </>
  );
}
