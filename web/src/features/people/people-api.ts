/** What the pages ask of people, sessions, links, tokens and the audit trail. */
import { z } from 'zod';
import {
  auditAnswerSchema,
  endedAnswerSchema,
  heldAnswerSchema,
  heldEndedSchema,
  invitationsAnswerSchema,
  linkShownSchema,
  newLinkAnswerSchema,
  newTokenAnswerSchema,
  peopleAnswerSchema,
  sessionAnswerSchema,
  sessionsAnswerSchema,
  tokensAnswerSchema,
} from '../../../../shared/contracts/people.ts';
import type { Role, Scope } from '../../../../shared/person.ts';
import { ask } from '../../data/client.ts';

const nothing = z.undefined();
const anything = z.unknown();
const piece = encodeURIComponent;

export const signIn = (name: string, password: string) =>
  ask(sessionAnswerSchema, '/api/session', { method: 'POST', body: { name, password } });

export const readLink = (secret: string) =>
  ask(linkShownSchema, '/api/links/look', { method: 'POST', body: { secret } });
export const takeLink = (body: { secret: string; name?: string; password: string }) =>
  ask(sessionAnswerSchema, '/api/links/use', { method: 'POST', body });

export const getMySessions = () => ask(sessionsAnswerSchema, '/api/me/sessions');
export const endMySession = (id: string) =>
  ask(endedAnswerSchema, `/api/me/sessions/${piece(id)}`, { method: 'DELETE' });
export const endMyOtherSessions = () => ask(endedAnswerSchema, '/api/me/sessions', { method: 'DELETE' });
export const changePassword = (current: string, next: string) =>
  ask(nothing, '/api/me/password', { method: 'PUT', body: { current, next } });

export const getTokens = () => ask(tokensAnswerSchema, '/api/tokens');
export const makeToken = (body: { name: string; scope: Scope; days?: number; password: string }) =>
  ask(newTokenAnswerSchema, '/api/tokens', { method: 'POST', body });
export const revokeToken = (id: string) => ask(nothing, `/api/tokens/${piece(id)}`, { method: 'DELETE' });

export const getPeople = () => ask(peopleAnswerSchema, '/api/people');
export const changePerson = (id: string, change: { name?: string; role?: Role }) =>
  ask(anything, `/api/people/${piece(id)}`, { method: 'PATCH', body: change });
export const removePerson = (id: string) => ask(nothing, `/api/people/${piece(id)}`, { method: 'DELETE' });
export const resetPerson = (id: string) =>
  ask(newLinkAnswerSchema, `/api/people/${piece(id)}/reset`, { method: 'POST', body: {} });
export const getHeld = (id: string) => ask(heldAnswerSchema, `/api/people/${piece(id)}/held`);
export const endHeld = (id: string) => ask(heldEndedSchema, `/api/people/${piece(id)}/held`, { method: 'DELETE' });
export const endHeldOne = (id: string, kind: 'sessions' | 'tokens' | 'devices', item: string) =>
  ask(nothing, `/api/people/${piece(id)}/${kind}/${piece(item)}`, { method: 'DELETE' });
export const getInvitations = () => ask(invitationsAnswerSchema, '/api/invitations');
export const invite = (role: Role, days: number) =>
  ask(newLinkAnswerSchema, '/api/invitations', { method: 'POST', body: { role, days } });
export const takeBackInvitation = (id: string) => ask(nothing, `/api/invitations/${piece(id)}`, { method: 'DELETE' });

export const getAudit = (query: Readonly<Record<string, string>>) =>
  ask(auditAnswerSchema, `/api/audit?${new URLSearchParams(query)}`);
