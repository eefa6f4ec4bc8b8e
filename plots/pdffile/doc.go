// Package pdffile writes a report of package plots as a PDF file to print, mail or
// show: the first sheet on one page, then every section of the report, on Letter or
// A4 paper.
//
// # Promises
//
// Equal reports give equal bytes. The file needs no other file: it contains its
// fonts and pictures. Characters that its fonts lack are shown as a question mark and
// counted at the end of the report.
//
// The file has bookmarks, links, page numbers, a language, and descriptions of its
// pictures, but no tags: the HTML report is the edition for screen readers.
package pdffile
