/** What the command line says of a book that began, left or came back. */
import { counted } from "./digits.ts";

export function bookBegunWords(begun: {
  readonly name: string;
  readonly folder: string;
  readonly key: string;
  readonly keyFile: string;
}): readonly string[] {
  return [
    `The book "${begun.name}" has begun in ${begun.folder}.`,
    `Its private key is ${begun.keyFile}. It is not in the folder of the book, and goes into no copy of it: keep a copy of the key elsewhere, too.`,
    "Its public key, to be kept elsewhere and given to lamproom verify with --key:",
    begun.key,
  ];
}

export function exportedWords(exported: {
  readonly out: string;
  readonly size: number;
  readonly files: number;
  readonly missing: readonly string[];
}): readonly string[] {
  return [
    `${counted(exported.size, "entry", "entries")} and ${counted(exported.files, "file", "files")} are in ${exported.out}, names of people among them.`,
    ...exported.missing.map((file) => `The file ${file} was not there, or damaged.`),
  ];
}

export const broughtBackWords = ({ size, folder }: { readonly size: number; readonly folder: string }): readonly string[] => [
  `${counted(size, "entry", "entries")} brought back into ${folder}, under the same numbers and the same head.`,
  "To write into it, the private key of the book must be on this machine.",
];
