/** How an outside broker is reached, and what is asked of it. */
export interface OutsideBrokerOptions {
  readonly url: string;
  /** Stable: the broker keeps messages for this name. */
  readonly clientId: string;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  /** Messages the broker may send before it must wait for acknowledgements (MQTT 5 section 3.1.2.11.3). */
  readonly receiveMaximum?: number;
  /** What to hear of ours; every site when absent. */
  readonly rootFilter?: string;
  /** Only looks on: keeps no session and asks for no second delivery. */
  readonly onlooker?: boolean;
  /** Asked before each attempt to come back; once it says no, `confirm` must be called first. */
  mayConnect?(): boolean;
  /** Everything wanted is subscribed. @param hadBefore The broker knew this session. */
  onStanding?(hadBefore: boolean): void;
  /** Messages of our own making, heard in their order among all others. */
  readonly barriers?: { readonly filter: string; heard(topic: string, text: string): void };
}
