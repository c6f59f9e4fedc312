/** What the hooks of the embedded broker share. */
import type { Socket } from 'node:net';
import type { AedesOptions, Client } from 'aedes';
import type { AuthPolicy, Principal } from '../auth/auth-policy.ts';
import type { Sink, SourceContext } from '../commit/inbound-source.ts';
import type { FilterShares } from './filter-shares.ts';
import type { KeyShares } from './key-shares.ts';
import type { RetainedMessages } from './retained-messages.ts';

export type Hook<Name extends keyof AedesOptions> = NonNullable<AedesOptions[Name]>;

/** Called once with the message's fate: nothing to acknowledge it, an error to part from the publisher without. */
export type EmbeddedTicket = (error?: Error | null) => void;

/** Who each client was let in as. */
export type Principals = WeakMap<Client, Principal>;

export interface HookParts {
  readonly context: SourceContext;
  readonly authPolicy: AuthPolicy;
  readonly sink: Sink<EmbeddedTicket>;
  readonly retained: RetainedMessages;
  readonly shares: KeyShares;
  readonly filters: FilterShares;
  readonly principals: Principals;
  isPaused(): boolean;
  letIn(socket: Socket, principal: Principal): void;
  /** What a message cost beside its length, in short packets. */
  spend(socket: Socket, packets: number): void;
  /** A QoS 2 message that was taken in already and waits for its PUBREL. */
  isUnderWay(client: Client, messageId: number | undefined): boolean;
}

export function socketOf(client: Client): Socket {
  return client.conn as Socket; // we hand nothing else to the broker
}
