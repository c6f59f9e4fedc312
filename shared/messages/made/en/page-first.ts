// Made from ../../en/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "Server",
  "page-first.port": "Port",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"on","other":"off"},0]],
  "page-first.only-here": ["The broker answers this machine only: nothing from another device reaches it. ",["<","link","Let probes and a phone in"]],
  "page-first.key.do": "Make a key for it",
  "page-first.key.why": "A device elsewhere needs a key: a user name and a password.",
  "page-first.key.unused": ["The key “",["keyName"],"” was made ",["madeAgoMs"],", and nothing has come in with it since the server started. If its password was not copied, make another here and revoke this one under ",["<","link","Keys"],"."],
  "page-first.key.ask": "A device elsewhere needs a key: ask an owner for one.",
  "page-first.waiting": "Waiting for the first message. Nothing has reached the broker yet.",
  "page-first.came": ["The first message came at ",["cameAtMs"],", on ",["<","mono",[["topicText"]]],"."],
  "page-first.unread": ["A message on ",["<","mono",[["topicText"]]]," could not be used, ",["lastAgoMs"],". ",["whyText"]],
  "page-first.unused": ["Messages come on ",["<","mono",[["topicText"]]],", which Branhearth does not know by itself. ",["<","link","Say which value it is"]],
  "page-first.turned-away": [["<","b",[["whatText"]]],", from ",["addressText"],", ",["lastAgoMs"],". ",["meaningText"]],
  "page-first.outside": "Your own broker decides who comes in: it knows what it refused.",
};
