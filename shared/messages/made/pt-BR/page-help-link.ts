// Made from ../../pt-BR/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["Ajuda: ",["chapterText"]],
  "page-help-link.all": "todos os capítulos",
  "page-help-link.key": "O que significam as cores, os pontos e as marcas",
  "page-help-link.chapter.first-steps": "Primeiros passos",
  "page-help-link.chapter.probes": "Termômetros e sondas",
  "page-help-link.chapter.probe": "Montar uma sonda",
  "page-help-link.chapter.squeeze": "Apertar, cheirar e olhar",
  "page-help-link.chapter.signs": "Cores, pontos e marcas",
  "page-help-link.chapter.stages": "As etapas e suas palavras",
  "page-help-link.chapter.warnings": "Os avisos, um por um",
  "page-help-link.chapter.notifications": "Alarmes e notificações",
  "page-help-link.chapter.chart": "Ler o gráfico",
  "page-help-link.chapter.device": "Cuidar das sondas",
  "page-help-link.chapter.cautions": "Cuidados",
  "page-help-link.chapter.questions": "Perguntas e falhas",
};
