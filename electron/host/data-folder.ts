import { homedir } from 'node:os';
import path from 'node:path';

/**
 * Folder that holds records and settings: KERFHAND_DATA where it is set, else the platform's place for such things
 * (%APPDATA%, ~/Library/Application Support, or XDG_DATA_HOME / ~/.local/share).
 */
export function dataFolder(env: NodeJS.ProcessEnv = process.env, platform: NodeJS.Platform = process.platform): string {
  if (env.KERFHAND_DATA) return path.resolve(env.KERFHAND_DATA);
  switch (platform) {
    case 'win32':
      return path.join(env.APPDATA ?? path.join(homedir(), 'AppData', 'Roaming'), 'Kerfhand');
    case 'darwin':
      return path.join(homedir(), 'Library', 'Application Support', 'Kerfhand');
    default:
      return path.join(env.XDG_DATA_HOME || path.join(homedir(), '.local', 'share'), 'kerfhand');
  }
}
