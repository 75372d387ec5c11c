import { PDFDocument, type PDFFont, type PDFImage, type PDFPage, type RGB, rgb, StandardFonts } from '@cantoo/pdf-lib';

export const INK = rgb(0.1, 0.12, 0.15);
export const GREY = rgb(0.38, 0.41, 0.45);
export const LINE = rgb(0.78, 0.8, 0.83);
export const SHADE = rgb(0.88, 0.92, 0.95);
export const STEEL = rgb(0.13, 0.36, 0.52);

/** A4 portrait, pt. */
export const PAGE_WIDTH_PT = 595.28;
export const PAGE_HEIGHT_PT = 841.89;

export interface TextStyle {
  size: number;
  bold?: boolean;
  colour?: RGB;
  /** Where x is: the left end, or the right. */
  align?: 'left' | 'right';
}

/**
 * One page to draw on. Places are in pt from the top left corner, y down, a text's y is its base line.
 * The fonts are those that every reader of PDF has: Latin letters of western Europe; what they lack is printed without its accent,
 * or as a question mark, and `hasUnprintable` tells.
 */
export interface PdfPage {
  readonly hasUnprintable: boolean;
  text(text: string, x: number, y: number, style: TextStyle): void;
  widthOf(text: string, style: TextStyle): number;
  /** Lines that fit the width; the last ends in `ending` where there was more than `most` lines. */
  wrap(text: string, width: number, style: TextStyle, most: number, ending?: string): string[];
  /** One line that fits, cut short with dots if it must be. */
  fit(text: string, width: number, style: TextStyle): string;
  line(x1: number, y1: number, x2: number, y2: number, colour?: RGB, width?: number): void;
  box(x: number, y: number, width: number, height: number, fill: RGB | null, edge?: RGB): void;
  /** Polyline; a null breaks it. */
  curve(points: readonly (readonly [number, number] | null)[], colour: RGB, width: number): void;
  /** A PNG as large as fits, in the middle of its box. @throws where the bytes are no PNG that can be read */
  picture(png: Uint8Array, x: number, y: number, width: number, height: number): Promise<void>;
  save(): Promise<Uint8Array>;
}

export interface PdfAbout {
  title: string;
  subject: string;
  madeAt: Date;
  program: string;
}

export async function createPdfPage(about: PdfAbout): Promise<PdfPage> {
  const document = await PDFDocument.create();
  document.setTitle(about.title, { showInWindowTitleBar: true });
  document.setSubject(about.subject);
  document.setLanguage('en');
  document.setCreator(about.program);
  document.setProducer(about.program);
  document.setCreationDate(about.madeAt);
  document.setModificationDate(about.madeAt);
  const plain = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  const page: PDFPage = document.addPage([PAGE_WIDTH_PT, PAGE_HEIGHT_PT]);
  const known = new Set(plain.getCharacterSet());
  let hasUnprintable = false;

  const fontOf = (style: TextStyle): PDFFont => (style.bold ? bold : plain);
  const printable = (text: string): string => {
    let result = '';
    for (const character of text.normalize('NFC').replace(/\s/g, ' ')) {
      if (known.has(character.codePointAt(0) ?? 0)) {
        result += character;
        continue;
      }
      const bare = [...character.normalize('NFKD')].filter((part) => known.has(part.codePointAt(0) ?? 0)).join('');
      if (bare === '') hasUnprintable = true;
      result += bare === '' ? '?' : bare;
    }
    return result;
  };
  const widthOf = (text: string, style: TextStyle) => fontOf(style).widthOfTextAtSize(printable(text), style.size);

  function cut(text: string, width: number, style: TextStyle, ending: string): string {
    const characters = [...printable(text)];
    let [low, high] = [0, characters.length];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (widthOf(characters.slice(0, middle).join('') + ending, style) <= width) low = middle;
      else high = middle - 1;
    }
    return characters.slice(0, low).join('').trimEnd() + ending;
  }
  const fit = (text: string, width: number, style: TextStyle) =>
    widthOf(text, style) <= width ? text : cut(text, width, style, '...');

  function wrap(text: string, width: number, style: TextStyle, most: number, ending = '...'): string[] {
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(/\s+/).filter((part) => part !== '')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (widthOf(longer, style) <= width) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      line = word;
      // A word longer than the line is broken where the line ends.
      while (widthOf(line, style) > width) {
        const head = cut(line, width, style, '') || [...line][0];
        lines.push(head);
        line = [...printable(line)].slice([...head].length).join('');
      }
      if (lines.length > most) break;
    }
    if (line !== '') lines.push(line);
    if (lines.length <= most) return lines;
    return [...lines.slice(0, most - 1), cut(`${lines[most - 1]} `, width, style, ending)];
  }

  return {
    get hasUnprintable() {
      return hasUnprintable;
    },
    text(text, x, y, style) {
      const shown = printable(text);
      const font = fontOf(style);
      const left = style.align === 'right' ? x - font.widthOfTextAtSize(shown, style.size) : x;
      page.drawText(shown, { x: left, y: PAGE_HEIGHT_PT - y, size: style.size, font, color: style.colour ?? INK });
    },
    widthOf,
    wrap,
    fit,
    line(x1, y1, x2, y2, colour = LINE, width = 0.6) {
      const [start, end] = [
        { x: x1, y: PAGE_HEIGHT_PT - y1 },
        { x: x2, y: PAGE_HEIGHT_PT - y2 },
      ];
      page.drawLine({ start, end, thickness: width, color: colour });
    },
    box(x, y, width, height, fill, edge) {
      const look = { ...(fill ? { color: fill } : {}), ...(edge ? { borderColor: edge, borderWidth: 0.6 } : {}) };
      page.drawRectangle({ x, y: PAGE_HEIGHT_PT - y - height, width, height, ...look });
    },
    curve(points, colour, width) {
      let path = '';
      let isPenDown = false;
      for (const point of points) {
        if (point) path += `${isPenDown ? 'L' : 'M'}${point[0].toFixed(2)} ${point[1].toFixed(2)}`;
        isPenDown = point !== null;
      }
      if (path === '') return;
      page.drawSvgPath(path, { x: 0, y: PAGE_HEIGHT_PT, borderColor: colour, borderWidth: width });
    },
    async picture(png, x, y, width, height) {
      const image: PDFImage = await document.embedPng(png);
      const scale = Math.min(width / image.width, height / image.height);
      const [wide, high] = [image.width * scale, image.height * scale];
      const left = x + (width - wide) / 2;
      page.drawImage(image, { x: left, y: PAGE_HEIGHT_PT - y - (height + high) / 2, width: wide, height: high });
    },
    save: () => document.save(),
  };
}
