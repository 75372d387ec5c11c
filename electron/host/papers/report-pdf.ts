import { HostError } from '../host-error.ts';
import { createPdfPage, GREY, LINE, PAGE_HEIGHT_PT, PAGE_WIDTH_PT, type PdfPage, SHADE, STEEL } from './pdf-page.ts';
import type { Report, ReportVerdict } from './report.ts';
import { drawMarkBar, drawTrace, shown } from './report-chart.ts';
import { CAUTION_WORDS, REPORT_WORDS as WORDS } from './report-words.ts';

const LEFT = 40;
const RIGHT = PAGE_WIDTH_PT - 40;
const WIDTH = RIGHT - LEFT;
const GAP = 14;
const SMALL = { size: 8 };
const TINY = { size: 7, colour: GREY };
const HEADING = { size: 10, bold: true, colour: STEEL };

/**
 * The report as a PDF of one page, A4. The same report gives the same bytes.
 * @throws HostError 'bad-file' where a picture cannot be read
 */
export async function reportPdf(report: Report): Promise<Uint8Array> {
  const page = await createPdfPage({
    title: `${WORDS.title}: ${report.drillTitle}`,
    subject: `${report.person ?? WORDS.nobody}, ${dateText(report.beganAt)}`,
    madeAt: new Date(report.madeAt),
    program: `Kerfhand ${report.appVersion}`,
  });
  drawHead(page, report);
  const middle = LEFT + WIDTH * 0.5;
  const factsEnd = drawFacts(page, report, LEFT, 106, middle - LEFT - GAP);
  const verdictEnd = drawVerdict(page, report, middle, 106, RIGHT - middle);
  let y = Math.max(factsEnd, verdictEnd) + GAP;
  y = await drawPictures(page, report, y, pictureHeight(report, y));
  y = drawMeasures(page, report, y);
  drawFoot(page, report);
  drawTraces(page, report, y);
  return await page.save();
}

function drawHead(page: PdfPage, report: Report): void {
  page.text(WORDS.title, LEFT, 50, { size: 9, colour: GREY });
  page.text(page.fit(report.yard, WIDTH - 120, { size: 9 }), RIGHT, 50, { size: 9, colour: GREY, align: 'right' });
  const { result } = report;
  const score = result ? shown(result.score) : '-';
  const big = { size: 24, bold: true };
  const unit = `${WORDS.of100}`;
  const unitWidth = page.widthOf(unit, SMALL);
  page.text(score, RIGHT - unitWidth - 4, 76, { ...big, align: 'right' });
  page.text(unit, RIGHT, 76, { ...SMALL, align: 'right' });
  const room = WIDTH - unitWidth - page.widthOf(score, big) - 24;
  const large = { size: 16, bold: true };
  const small = { size: 12, bold: true };
  if (page.widthOf(report.drillTitle, large) <= room) page.text(report.drillTitle, LEFT, 74, large);
  // A long name goes over two lines.
  else for (const [n, line] of page.wrap(report.drillTitle, room, small, 2).entries()) page.text(line, LEFT, 69 + 15 * n, small);
  const passed = result === null ? WORDS.unfinished : result.passed ? WORDS.passed : WORDS.notPassed;
  page.text(passed, RIGHT, 89, { size: 8, align: 'right' });
  page.line(LEFT, 95, RIGHT, 95, STEEL, 1.2);
}

function drawFacts(page: PdfPage, report: Report, x: number, top: number, width: number): number {
  const { facts } = WORDS;
  const rows: [string, string][] = [
    [facts.person, report.person ?? WORDS.nobody],
    [facts.began, dateText(report.beganAt)],
    [facts.lasted, WORDS.seconds(shown(report.lastedS))],
    [facts.metal, `${report.material}, ${report.thickness}`],
    [facts.rig, WORDS.rig(report.rig, shown(report.currentA))],
    [facts.hand, report.hand],
    [facts.record, WORDS.record(report.coreVersion, report.seed, report.runDigest)],
  ];
  let y = top + 6;
  for (const [name, value] of rows) {
    page.text(name, x, y, { ...SMALL, colour: GREY });
    page.text(page.fit(value, width - 50, SMALL), x + 50, y, SMALL);
    y += 11.5;
  }
  const firstThing = report.firstThing && `${WORDS.firstThing}${report.firstThing}.`;
  for (const words of [report.warning, firstThing]) {
    for (const line of words ? page.wrap(words, width, { ...SMALL, bold: true }, 2) : []) {
      page.text(line, x, y + 2, { ...SMALL, bold: true });
      y += 10;
    }
  }
  return y;
}

function drawVerdict(page: PdfPage, report: Report, x: number, top: number, width: number): number {
  const { verdict } = report;
  const inner = width - 16;
  const lines = verdict ? verdictLines(page, verdict, inner) : page.wrap(WORDS.noVerdictLong, inner, SMALL, 2);
  const height = 32 + lines.length * 9.5;
  page.box(x, top - 4, width, height, SHADE);
  const words = verdict === null ? WORDS.noVerdict : verdict.decision === 'competent' ? WORDS.competent : WORDS.notYetCompetent;
  page.text(WORDS.verdict, x + 8, top + 7, TINY);
  page.text(words, x + 8, top + 20, { size: 12, bold: true });
  let y = top + 31;
  for (const line of lines) {
    page.text(line, x + 8, y, SMALL);
    y += 9.5;
  }
  return top - 4 + height;
}

function verdictLines(page: PdfPage, verdict: ReportVerdict, width: number): string[] {
  const lines = [
    page.fit(WORDS.decidedBy(verdict.assessor, dateText(verdict.at)), width, SMALL),
    verdict.keyId === null ? WORDS.notSigned : WORDS.signedWith(verdict.keyId),
  ];
  if (verdict.overruled.length > 0) lines.push(WORDS.scoreAfter(shown(verdict.scoreAfter)));
  lines.push(...page.wrap(verdict.reasons, width, SMALL, 5, WORDS.cutShort));
  const few = verdict.overruled.slice(0, 3);
  for (const { name, from, to, reason } of few) {
    lines.push(...page.wrap(WORDS.overruled(name, shown(from), shown(to), reason), width, SMALL, 2, WORDS.cutShort));
  }
  if (verdict.overruled.length > few.length) lines.push(WORDS.moreOverruled(verdict.overruled.length - few.length));
  return lines;
}

/** Pictures give way where marks and traces need the room. */
function pictureHeight(report: Report, top: number): number {
  const measures = report.measures.length === 0 ? 0 : 21 + report.measures.length * measureStep(report);
  const traces = 14 + Math.max(1, Math.ceil(report.traces.length / 2)) * 72;
  return Math.min(128, Math.max(60, footTop(report) - top - measures - traces - 20));
}

/** A drill with every measure there is still leaves room for the traces. */
function measureStep(report: Report): number {
  return report.measures.length > 12 ? 9.5 : 12;
}

async function drawPictures(page: PdfPage, report: Report, top: number, height: number): Promise<number> {
  const { pictures } = report;
  if (pictures.length === 0) {
    page.text(WORDS.noPictures, LEFT, top, TINY);
    return top + 16;
  }
  const width = (WIDTH - GAP * (pictures.length - 1)) / pictures.length;
  for (const [index, { caption, png }] of pictures.entries()) {
    const x = LEFT + index * (width + GAP);
    page.box(x, top - 6, width, height, null, LINE);
    try {
      await page.picture(png, x + 2, top - 4, width - 4, height - 4);
    } catch (error) {
      throw new HostError('bad-file', `The picture "${caption.slice(0, 60)}" cannot be read.`, { cause: error });
    }
    page.text(page.fit(caption, width, TINY), x, top + height + 3, TINY);
  }
  return top + height + 20;
}

function drawMeasures(page: PdfPage, report: Report, top: number): number {
  if (report.measures.length === 0) return top;
  page.text(WORDS.measures, LEFT, top, HEADING);
  const columns = { bar: LEFT + 118, mark: LEFT + 218, weight: LEFT + 244, note: LEFT + 256 };
  page.text(WORDS.mark, columns.mark, top, { ...TINY, align: 'right' });
  page.text(WORDS.weight, columns.weight + 4, top, { ...TINY, align: 'right' });
  let y = top + 13;
  for (const { name, mark, weight, mustReach, note, fromS, overruledTo } of report.measures) {
    page.text(page.fit(name, 112, SMALL), LEFT, y, SMALL);
    drawMarkBar(page, mark, mustReach, columns.bar, y - 5.5, 76, 5.5);
    page.text(shown(mark), columns.mark, y, { ...SMALL, bold: true, align: 'right' });
    page.text(shown(weight), columns.weight, y, { ...SMALL, colour: GREY, align: 'right' });
    const parts = [
      overruledTo === null ? null : WORDS.assessorsMark(shown(overruledTo)),
      mustReach !== null && mark < mustReach ? WORDS.atLeast(shown(mustReach)) : null,
      note && (fromS === null ? note : `${note} ${WORDS.at(shown(fromS))}`),
    ].filter((part) => part !== null && part !== '');
    page.text(page.fit(parts.join('; '), RIGHT - columns.note, { size: 7.5 }), columns.note, y, { size: 7.5 });
    y += measureStep(report);
  }
  return y + 8;
}

function drawTraces(page: PdfPage, report: Report, top: number): void {
  const bottom = footTop(report);
  page.text(WORDS.traces, LEFT, top, HEADING);
  if (report.traces.length === 0) {
    page.text(WORDS.noTrace, LEFT, top + 12, SMALL);
    return;
  }
  page.text(WORDS.tracesAbout, RIGHT, top, { ...TINY, align: 'right' });
  const rows = Math.ceil(report.traces.length / 2);
  const width = (WIDTH - GAP) / 2;
  const height = Math.min(150, (bottom - top - 14) / rows - 4);
  for (const [index, trace] of report.traces.entries()) {
    drawTrace(page, trace, LEFT + (index % 2) * (width + GAP), top + 8 + (index >> 1) * (height + 4), width, height);
  }
}

/** Where the foot begins: below it nothing else is drawn. */
function footTop(report: Report): number {
  return PAGE_HEIGHT_PT - 68 - report.cautions.length * 8.5;
}

function drawFoot(page: PdfPage, report: Report): void {
  let y = footTop(report) + 8;
  page.line(LEFT, y - 9, RIGHT, y - 9);
  page.text(WORDS.cautions, LEFT, y, { size: 8, bold: true });
  const note = { size: 7 };
  for (const caution of [...report.cautions.map((id) => CAUTION_WORDS[id]), WORDS.always]) {
    y += 8.5;
    page.text(page.fit(caution, WIDTH, note), LEFT, y, note);
  }
  y += 11;
  page.text(WORDS.estimates, LEFT, y, { size: 7, bold: true });
  page.text(WORDS.made(dateText(report.madeAt), report.appVersion), LEFT, y + 10, TINY);
  if (page.hasUnprintable) page.text(WORDS.unprintable, RIGHT, y + 10, { ...TINY, align: 'right' });
}

/** '2030-02-01 10:15 UTC'. */
function dateText(iso: string): string {
  return `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
}
