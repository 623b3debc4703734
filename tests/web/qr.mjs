import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

// What zbar, a reader that is not ours, sees on the screen.
export function read_qr(picture) {
  const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
  try {
    writeFileSync(join(folder, 'screen.png'), picture);
    return execFileSync('zbarimg', ['--quiet', '--raw', '-Sdisable', '-Sqrcode.enable', join(folder, 'screen.png')],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
  } finally {
    rmSync(folder, { recursive: true });
  }
}
