/** Whether a probe needs a key also when it comes from this machine. */
import type { KeysAnswer } from '../../../../shared/contracts/keys.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Refusal } from '../../ui/parts/forms.tsx';
import { setAuthRule } from './keys-api.ts';

interface AuthRuleProps {
  readonly answer: KeysAnswer;
  readonly onChange: () => Promise<void>;
}

export function AuthRule({ answer, onChange }: AuthRuleProps) {
  const mutation = useMutation();
  const { everyProbeNeedsAKey, networkIsTrusted } = answer;
  return (
    <>
      <Choice
        legend="Who needs a key"
        hideLegend
        value={everyProbeNeedsAKey ? 'every' : 'others'}
        choices={[
          ['others', networkIsTrusted ? 'Nobody' : 'Who comes from elsewhere'],
          ['every', 'Every probe'],
        ]}
        onValue={(who) => void mutation.run(() => setAuthRule(who === 'every').then(onChange))}
      />
      <p class="hint">
        {networkIsTrusted
          ? 'BRANHEARTH_MQTT_TRUSTED_NETWORK says that your network is trusted: whoever reaches the broker may publish and listen, until you want a key of every probe.'
          : 'Programs of this machine may come in without one, until you want a key of every probe. Choose that when a gateway or a forwarder on this machine lets others through.'}{' '}
        Devices without a key are disconnected at once.
      </p>
      <Refusal error={mutation.error} />
    </>
  );
}
