import { describeExcess, MAX_JOB_BYTES } from '../../job/parse/read-yaml.ts';
import { el } from '../dom.ts';

export interface OpenedFile {
  readonly name: string;
  readonly text: string;
  readonly handle?: FileHandle;
}

/** The part of the File System Access API that is used here; not every browser has it. */
export interface FileHandle {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<{ write(data: BlobPart): Promise<void>; close(): Promise<void> }>;
}

interface Pickers {
  readonly showOpenFilePicker?: () => Promise<readonly FileHandle[]>;
  readonly showSaveFilePicker?: (options: { suggestedName: string }) => Promise<FileHandle>;
}

const pickers = window as unknown as Pickers;

export const downloadedMessage = (name: string): string => `${name} is in your Downloads folder.`;

/** Longer than any job or list of readings may be; the job reader refuses the rest as too long. */
const MAX_READ_BYTES = 2 * MAX_JOB_BYTES;

export async function openTextFile(endings: string): Promise<OpenedFile | undefined> {
  if (!pickers.showOpenFilePicker) return await chooseWithInput(endings);
  const handle = await unlessCanceled(async () => (await pickers.showOpenFilePicker?.())?.[0]);
  return handle && { name: handle.name, text: await readBlobText(await handle.getFile()), handle };
}

export const readBlobText = (file: Blob): Promise<string> => file.slice(0, MAX_READ_BYTES).text();

/** Keeps a text that is too long for a job or readings out of a field: the browser would lay it out for minutes. */
export function rejectTooLongInput(field: HTMLTextAreaElement, onReject: (text: string) => void): void {
  field.addEventListener('beforeinput', (event) => {
    const text = event.data ?? event.dataTransfer?.getData('text/plain') ?? '';
    if (describeExcess(text) === undefined) return;
    event.preventDefault();
    onReject(text);
  });
}

function chooseWithInput(endings: string): Promise<OpenedFile | undefined> {
  const input = el('input', { type: 'file', accept: endings, hidden: '' });
  // Some browsers forget an input that is not in the page.
  document.body.append(input);
  return new Promise((resolve) => {
    const chosen = async (file?: File): Promise<void> => {
      input.remove();
      resolve(file && { name: file.name, text: await readBlobText(file) });
    };
    input.addEventListener('cancel', () => chosen());
    input.addEventListener('change', () => chosen(input.files?.[0]));
    input.click();
  });
}

/** Writes to a known file, or to one chosen now; false if the user cancels. */
export async function saveTextFile(
  text: string,
  name: string,
  handle?: FileHandle,
): Promise<FileHandle | 'downloaded' | undefined> {
  if (!handle && !pickers.showSaveFilePicker) {
    download(text, name, 'text/yaml');
    return 'downloaded';
  }
  return await unlessCanceled(async () => {
    const file = handle ?? (await pickers.showSaveFilePicker?.({ suggestedName: name }));
    const writable = await file?.createWritable();
    await writable?.write(text);
    await writable?.close();
    return file;
  });
}

async function unlessCanceled<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}

/** Long enough for a slow disk to have taken the file, ms. */
const REVOKE_AFTER_MS = 60_000;

export function download(data: BlobPart, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([data], { type }));
  el('a', { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), REVOKE_AFTER_MS);
}
