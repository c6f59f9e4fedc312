// Made from ../../en/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "Welcome",
  "page-welcome.none": "No pile is watched yet.",
  "page-welcome.none.hint": "A keeper or an owner lays the first; it then stands here.",
  "page-welcome.practise-meanwhile": [["<","link","Practise on a simulated pile"]," meanwhile."],
  "page-welcome.lay-first": "No pile is watched yet. Lay the first.",
  "page-welcome.lead": "Branhearth listens to the probes in your bran and soil piles, says in plain words how each pile is and what to do next, and keeps the record of each batch.",
  "page-welcome.demo": ["Stop the program, run ",["<","command","npm run demo"]," in its folder, and this page shows an invented farm with four piles, in fast time and on a scratch folder."],
  "page-welcome.publish": ["A probe publishes over MQTT to ",["<","topic",[["topicText"]]],". To try it without one, run this in the folder of Branhearth",["isOnlyHere",{"true":"","other":", here or on another machine"},0],":"],
  "page-welcome.copy": "Copy",
  "page-welcome.copied": "Copied",
  "page-welcome.broker": ["The broker is ",["stateText"],": ",["detailText"]],
  "page-welcome.have": "What do you have?",
  "page-welcome.have.thermometer": "A thermometer",
  "page-welcome.have.sensor": "A sensor that already sends",
  "page-welcome.have.parts": "Parts to build one",
  "page-welcome.have.nothing": "Nothing yet: show me",
  "page-welcome.thermometer": "Push it into the middle of the pile, wait until it stands still, and say what it shows.",
  "page-welcome.parts": [["<","link","How to build a probe"],": what to buy, how to wire it, and a configuration ready to load. Once it sends, it stands here."],
  "page-welcome.nothing": "A simulated pile in your hands: it takes a few minutes and no probe.",
  "page-welcome.nothing.do": "Practise on a simulated pile",
  "page-welcome.sensor.where": "Where it sends to",
  "page-welcome.sensor.pile": "The pile",
};
