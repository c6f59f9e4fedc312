/**
 * A message by a service that a person chose. It reaches nothing inside the network, follows nothing, and whatever it
 * keeps of an answer holds no secret: services repeat in answers what they were sent.
 */
import { jsonOf } from '../../../../shared/json-of.ts';
import { message } from '../../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../../shared/messages/render.ts';
import {
  type ServiceChannel,
  type ServiceValues,
  serverOfService,
  serviceOf,
} from '../../../../shared/notification-services/services.ts';
import { attemptTimeoutMs, type Channel, type ChannelAnswer, type Job } from '../channel.ts';
import { type GuardedOptions, guardedRequest } from '../guarded-request.ts';
import { channelError } from '../http-answer.ts';
import { readerOf } from '../render-content.ts';
import type { ServiceMessage, ServiceSender } from './sender.ts';
import { serviceAnswer } from './service-answer.ts';

export interface ServiceOptions {
  readonly channel: ServiceChannel;
  readonly sender: ServiceSender;
  readonly allowed: () => Promise<readonly string[]>;
  readonly valuesOf: (personId: string) => Promise<ServiceValues | undefined>;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
  /** For tests: where it answers in place of its own home. */
  readonly home?: string | undefined;
  readonly timeoutMs?: number;
  readonly keepReceipt?: (receipt: string, job: Job) => Promise<void>;
}

export function openService(options: ServiceOptions): Channel {
  const {
    channel,
    sender,
    allowed,
    valuesOf,
    guard = {},
    home,
    timeoutMs = attemptTimeoutMs / 2,
    keepReceipt,
  } = options;
  const { name: serviceName, fields } = serviceOf(channel);

  async function send(job: Job): Promise<ChannelAnswer> {
    try {
      const values = await valuesOf(job.message.personId);
      if (values === undefined)
        return { outcome: 'refused', detail: message('delivery.service.removed', { serviceName }) };
      const ask = sender.ask(messageOf(job, values, serverOfService(channel, values, home)));
      const answer = await guardedRequest(ask, { ...guard, allowed: await allowed(), timeoutMs });
      const receipt = answer.status === 200 ? sender.receiptOf?.(jsonOf(answer.body)) : undefined;
      if (receipt !== undefined) await keepReceipt?.(receipt, job);
      const secrets = Object.entries(values).flatMap(([key, value]) => (fields[key]?.isSecret ? [value] : []));
      return serviceAnswer(serviceName, sender, answer, [...secrets, ...(job.ack ? [job.ack.secret] : [])]);
    } catch (error) {
      return channelError(error);
    }
  }

  return { send, close: () => undefined };
}

function messageOf(job: Job, values: ServiceValues, server: string): ServiceMessage {
  const reader = readerOf(job.reader, 0);
  const say = (code: 'mail.seen-it' | 'mail.look') => plainSpaces(render(message(code), reader));
  const words = { seenIt: say('mail.seen-it'), look: say('mail.look') };
  return {
    job,
    values,
    server,
    gravity: gravityOf(job.notice),
    words,
    ways: [
      ...(job.ack?.url === undefined ? [] : [{ label: words.seenIt, url: job.ack.url }]),
      ...(job.pageUrl === undefined ? [] : [{ label: words.look, url: job.pageUrl }]),
    ],
  };
}

/** A test sounds as a warning does, what is over as nothing. */
function gravityOf({ answer, rank }: Job['notice']): ServiceMessage['gravity'] {
  if (answer === 'cleared' || answer === 'summary') return 0;
  if (answer === 'test') return 1;
  return rank <= 0 ? 0 : rank === 1 ? 1 : rank === 2 ? 2 : 3;
}
