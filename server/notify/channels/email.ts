/**
 * A message by SMTP. It never lets anything a person wrote start a header of its own, or waits longer than an attempt
 * may.
 */
import type { Transporter } from 'nodemailer';
import { message } from '../../../shared/messages/message.ts';
import { severityOfRank } from '../../../shared/notifications.ts';
import { asSaid, attemptTimeoutMs, type Channel, type ChannelAnswer, type Job, oneLine } from './channel.ts';
import { noAnswerWithin, RequestError } from './guarded-request.ts';
import { mailHtml, mailText } from './mail-body.ts';

export interface MailOptions {
  readonly smtpUrl: string;
  readonly from: string;
  readonly timeoutMs?: number;
}

export function openEmail({ smtpUrl, from, timeoutMs = attemptTimeoutMs }: MailOptions): Channel {
  const stepMs = Math.min(10_000, timeoutMs);
  const domain = /@([A-Za-z0-9.-]+)>?$/.exec(from)?.[1] ?? 'branhearth.invalid';
  const running = new Set<Transporter>();

  async function send(job: Job): Promise<ChannelAnswer> {
    const { createTransport } = await import('nodemailer'); // large, and most hours nobody is written to
    // A transport of its own for each attempt: whatever hangs is ended with it.
    const transport = createTransport({
      ...smtpServerOf(smtpUrl),
      connectionTimeout: stepMs,
      greetingTimeout: stepMs,
      socketTimeout: stepMs,
      dnsTimeout: stepMs,
      disableFileAccess: true,
      disableUrlAccess: true,
    });
    running.add(transport);
    let timer: NodeJS.Timeout | undefined;
    try {
      const tooLong = new Promise<never>((_resolve, reject) => {
        timer = setTimeout(() => reject(noAnswerWithin(timeoutMs)), timeoutMs);
      });
      const info = await Promise.race([transport.sendMail(mailOf(job, from, domain)), tooLong]);
      const detail = info.response === undefined ? message('delivery.taken') : asSaid(String(info.response));
      return { outcome: 'sent', detail };
    } catch (error) {
      return refusalOf(error);
    } finally {
      clearTimeout(timer);
      running.delete(transport);
      transport.close();
    }
  }

  return {
    send,
    close() {
      for (const transport of running) transport.close();
    },
  };
}

/** smtps:// speaks TLS from the first byte (port 465), smtp:// asks for it where the server offers it. */
export function smtpServerOf(smtpUrl: string) {
  const { protocol, hostname, port, username, password } = new URL(smtpUrl);
  const secure = protocol === 'smtps:';
  return {
    host: hostname.replace(/^\[|\]$/g, ''),
    port: port === '' ? (secure ? 465 : 587) : Number(port),
    secure,
    ...(username === '' ? {} : { auth: { user: decodeURIComponent(username), pass: decodeURIComponent(password) } }),
  };
}

/** Nothing is wrong. */
const isQuiet = ({ answer }: Job['notice']) => ['cleared', 'test', 'confirmation'].includes(answer);

function mailOf(job: Job, from: string, domain: string) {
  const { message, notice, content } = job;
  const severity = severityOfRank(notice.rank);
  const pressing = notice.rank >= 2 && !isQuiet(notice);
  const thread = notice.alarmId === null ? undefined : `<alarm.${notice.alarmId}.${message.personId}@${domain}>`;
  return {
    from,
    // As an object, so that it is one address and never a list.
    to: { name: '', address: message.address },
    subject: oneLine(content.title),
    text: mailText(job),
    html: mailHtml(job, isQuiet(notice) ? 'over' : severity),
    messageId: `<${message.id}@${domain}>`,
    ...(thread === undefined ? {} : { references: thread, inReplyTo: thread }),
    ...(pressing ? { priority: 'high' as const } : {}),
    // RFC 3834: programs that answer mail by themselves leave this one alone.
    headers: { 'Auto-Submitted': 'auto-generated' },
  };
}

/** Codes of nodemailer and replies of the server (RFC 5321 section 4.2.1): only a "no" to this very message is for good. */
function refusalOf(error: unknown): ChannelAnswer {
  const {
    responseCode,
    response,
    code,
    message: text,
    command,
  } = error as {
    responseCode?: number;
    response?: string;
    code?: string;
    message?: string;
    command?: string;
  };
  const detail = error instanceof RequestError ? error.said : asSaid(response ?? text ?? String(error));
  const aboutMessage = code === 'EENVELOPE' || code === 'EMESSAGE' || command === 'RCPT TO' || command === 'DATA';
  // Without a reply it was refused before it was sent: an address that is none.
  const forGood = aboutMessage && (responseCode ?? 550) >= 500;
  return { outcome: forGood ? 'refused' : 'failed', detail };
}
