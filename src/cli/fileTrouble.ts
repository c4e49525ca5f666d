/** What went wrong with a file, in words; the system's own message where the code is rare. */
const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'a part of the path is not a folder',
  EEXIST: 'a file of that name is in the way',
  EISDIR: 'this is a folder, a file is wanted',
  EACCES: 'access is denied',
  EPERM: 'access is denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EMFILE: 'too many files are open',
  ELOOP: 'the links go round in a circle',
  ENAMETOOLONG: 'the name is too long',
}

/** `board.yaml: there is no such file`; null for an error that did not come from the file system. */
export function fileTrouble(file: string, error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null
  return `${file}: ${WORDS[error.code] ?? error.message}`
}
