/** A key just made: what to enter at the probe, shown this once. */
import { useEffect, useRef } from 'preact/hooks';
import type { MadeKey } from '../../../../shared/contracts/keys.ts';
import { CopyText } from '../../ui/parts/copy-text.tsx';
import './keys.css';

interface MadeKeyProps {
  readonly made: MadeKey;
  readonly onDone: () => void;
}

export function MadeKeyView({ made, onDone }: MadeKeyProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const { size, path } = made.code;
  return (
    <div class="made-key">
      <h3 ref={heading} tabIndex={-1}>
        The key “{made.name}” is made. Copy it now: it is shown once.
      </h3>
      <p>The password is stored nowhere. If it is lost, revoke the key and make another.</p>
      {made.broker.onlyHere && (
        <p class="caution">
          The broker answers this machine only. For probes elsewhere set BRANHEARTH_MQTT_HOST or the TLS settings, and
          start again; the key stays good.
        </p>
      )}
      {!made.broker.tls && !made.broker.onlyHere && (
        <p class="caution">
          Without TLS, whoever can listen on your network can read this password. Give the broker a certificate if you
          do not trust it.
        </p>
      )}
      <h4>Enter at the probe</h4>
      <CopyText
        what="what to enter at the probe"
        text={made.lines.map(({ name, value }) => `${`${name}:`.padEnd(12)} ${value}`).join('\n')}
      />
      <h4>Or read with a phone</h4>
      <svg class="key-code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label="Code with the same as one address">
        <rect width={size} height={size} fill="#fff" />
        <path d={path} fill="#000" shape-rendering="crispEdges" />
      </svg>
      <h4>Try it</h4>
      <CopyText what="the command that tries the key" text={made.example} />
      <p>
        <button type="button" class="primary" onClick={onDone}>
          I have copied it
        </button>
      </p>
    </div>
  );
}
