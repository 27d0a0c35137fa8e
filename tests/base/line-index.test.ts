/**
 * Line breaks and positions as the Language Server Protocol 3.17 defines them, section "Text Documents":
 * "\n", "\r\n" and "\r" end a line; characters are UTF-16 code units; a character beyond the line means its end.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { LineIndex } from '../../server/src/base/line-index.ts';

describe('a line index', () => {
  it('counts every kind of line break', () => {
    const index = new LineIndex('a\nb\r\nc\rd');
    expect(index.lineCount).toBe(4);
    expect([0, 1, 2, 3].map(line => index.lineText(line))).toEqual(['a', 'b', 'c', 'd']);
    expect(index.position(5)).toEqual({ line: 2, character: 0 });
  });

  it('counts a character beyond the basic plane as two', () => {
    // The example of the protocol: in `a𐐀b` the offset of `b` is 3.
    expect(new LineIndex('a𐐀b').position(3)).toEqual({ line: 0, character: 3 });
  });

  it('keeps to the text', () => {
    const index = new LineIndex('ab\r\ncd');
    expect(index.position(-3)).toEqual({ line: 0, character: 0 });
    expect(index.position(99)).toEqual({ line: 1, character: 2 });
    expect(index.offset({ line: 0, character: 99 })).toBe(2);
    expect(index.offset({ line: 7, character: 0 })).toBe(6);
    expect(new LineIndex('').position(0)).toEqual({ line: 0, character: 0 });
  });

  it('agrees with the text documents of the protocol library', () => {
    const texts = fc.string({ unit: fc.constantFrom('a', 'Ω', '𐐀', '\n', '\r', '\r\n', ' '), maxLength: 40 });
    fc.assert(
      fc.property(texts, fc.nat(45), fc.nat(8), fc.nat(12), (text, offset, line, character) => {
        const index = new LineIndex(text);
        const document = TextDocument.create('file:///a', 'yaml', 1, text);
        expect(index.position(offset)).toEqual(document.positionAt(offset));
        expect(index.offset({ line, character })).toBe(document.offsetAt({ line, character }));
      }),
    );
  });

  it('finds every offset again', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('a', 'Ω', '\n', ' ') }), text => {
        const index = new LineIndex(text);
        for (let offset = 0; offset <= text.length; offset++) expect(index.offset(index.position(offset))).toBe(offset);
      }),
    );
  });
});
