import type { IConnackPacket, IDisconnectPacket, MqttClient } from 'mqtt';
import type { IngestLog } from '../commit/inbound-source.ts';
import { againMs } from './connect-options.ts';
import type { OutsideBrokerOptions } from './outside-options.ts';

const sessionTakenOver = 0x8e;

interface BrokerLineParts {
  readonly options: Pick<OutsideBrokerOptions, 'clientId' | 'mayConnect'>;
  /** As it may be shown. */
  readonly url: string;
  readonly log: IngestLog;
}

/** The connection of one client: what is wrong with it, and whether it may come back. */
export class BrokerLine {
  readonly #client: MqttClient;
  readonly #parts: BrokerLineParts;
  #problem = 'not connected yet';
  #connectedBefore = false;
  #hadSession = false;

  /** @param connected Called on each connection. */
  constructor(client: MqttClient, parts: BrokerLineParts, connected: () => void) {
    this.#client = client;
    this.#parts = parts;
    client.on('connect', (packet) => {
      this.#connected(packet);
      connected();
    });
    client.on('disconnect', (packet) => this.#disconnected(packet));
    client.on('error', (error) => this.#failed(error));
    client.on('close', () => this.#closed());
  }

  /** In a few words; empty while there is none. */
  get problem(): string {
    return this.#problem;
  }

  /** Whether the broker knew this session when we came last. */
  get hadSession(): boolean {
    return this.#hadSession;
  }

  /** What was not allowed to come back may. */
  confirm(): void {
    const client = this.#client;
    if (client.connected || client.reconnecting || client.options.reconnectPeriod !== 0) return;
    client.options.reconnectPeriod = againMs;
    client.reconnect();
  }

  #connected({ sessionPresent }: IConnackPacket): void {
    const { url, log } = this.#parts;
    this.#problem = '';
    this.#hadSession = sessionPresent;
    log.info({ url, sessionPresent }, 'connected to the broker');
    if (this.#connectedBefore && !sessionPresent) {
      log.warn({ url }, 'the broker forgot our session; what was published while we were away may be lost');
    }
    this.#connectedBefore = true;
  }

  #disconnected({ reasonCode }: IDisconnectPacket): void {
    if (reasonCode !== sessionTakenOver) return;
    const { clientId, mayConnect } = this.#parts.options;
    this.#problem = `another program uses the client id ${clientId}`;
    if (mayConnect) this.#client.options.reconnectPeriod = 0; // it took the site over: not to be taken back unasked
  }

  #failed(error: unknown): void {
    const { url, log } = this.#parts;
    const said = sayError(error);
    if (said !== this.#problem) log.warn({ url, err: error }, 'trouble with the broker'); // not once a second
    this.#problem = said;
  }

  #closed(): void {
    const { options } = this.#parts;
    if (this.#problem === '') this.#problem = 'the connection was lost';
    if (options.mayConnect && !options.mayConnect()) this.#client.options.reconnectPeriod = 0;
  }
}

/** Connection errors of Node carry their text in `code` when several addresses were tried. */
function sayError(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.message || String((error as NodeJS.ErrnoException).code ?? error.name);
}
