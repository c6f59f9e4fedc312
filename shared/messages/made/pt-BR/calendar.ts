// Made from ../../pt-BR/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "Revirar: {pileName}",
  "calendar.check": "Conferir: {pileName}",
  "calendar.ready": "Provavelmente pronta: {pileName}",
  "calendar.called-off": "Agora não, esquenta de forma perigosa: {pileName}",
  "calendar.called-off.growth": "Agora não, há nela um crescimento errado: {pileName}",
  "calendar.yours": "O endereço é seu: quem o tiver pode ler as datas, até você renová-lo.",
  "calendar.yours-here": "O endereço é seu e só abre nesta máquina: ponha em BRANHEARTH_PUBLIC_URL o endereço que os celulares alcançam. Quem o tiver pode ler as datas, até você renová-lo.",
};
