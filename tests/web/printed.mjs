// PDF files that the page has saved, looked at by programs that we did not write.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const measurer = fileURLToPath(new URL('../python/printed_pages.py', import.meta.url));

export const run = (command, ...words) => execFileSync(command, words, { encoding: 'utf8' });
export const pages_of = (pdf) => Number(run('pdfinfo', pdf).match(/^Pages: +(\d+)$/m)[1]);
// What tests/python/printed_pages.py finds on it: the sheet's sides, its margin and overlap in mm.
export const measured = (pdf, ...sheet) => JSON.parse(run('/usr/bin/python3', measurer, pdf, ...sheet.map(String)));

// Hands the file to `look` by its path; qpdf must find nothing wrong with it.
export async function with_pdf({ bytes }, look) {
  const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
  try {
    const pdf = join(folder, 'file.pdf');
    writeFileSync(pdf, bytes);
    run('qpdf', '--check', pdf);
    return await look(pdf);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
