// Command header prints the system and the processor that the header of a program names, as in windows/arm64, and what else
// that system wants of a program before it starts it.
package main

import (
	"debug/elf"
	"debug/macho"
	"debug/pe"
	"fmt"
	"os"
)

// codeSignature is the load command of a signature, LC_CODE_SIGNATURE.
const codeSignature = 0x1d

func main() {
	for _, name := range os.Args[1:] {
		text, err := header(name)
		if err != nil {
			fmt.Fprintln(os.Stderr, "header:", name, err)
			os.Exit(1)
		}
		fmt.Println(text)
	}
}

func header(name string) (string, error) {
	if f, err := elf.Open(name); err == nil {
		defer f.Close()
		linked := "needs no other file"
		if libs, err := f.ImportedLibraries(); err != nil || len(libs) > 0 {
			linked = fmt.Sprint("needs ", libs, err)
		}
		return fmt.Sprintf("linux/%s, %s", map[elf.Machine]string{elf.EM_X86_64: "amd64", elf.EM_AARCH64: "arm64"}[f.Machine], linked), nil
	}
	if f, err := macho.Open(name); err == nil {
		defer f.Close()
		signed := "not signed"
		for _, load := range f.Loads {
			// Apple's processors start nothing without a signature, if only one that the linker made.
			if f.ByteOrder.Uint32(load.Raw()) == codeSignature {
				signed = "signed by the linker"
			}
		}
		return fmt.Sprintf("darwin/%s, %s", map[macho.Cpu]string{macho.CpuAmd64: "amd64", macho.CpuArm64: "arm64"}[f.Cpu], signed), nil
	}
	f, err := pe.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	window := "for a window"
	if h, ok := f.OptionalHeader.(*pe.OptionalHeader64); ok && h.Subsystem == pe.IMAGE_SUBSYSTEM_WINDOWS_CUI {
		window = "for a command line"
	}
	machine := map[uint16]string{pe.IMAGE_FILE_MACHINE_AMD64: "amd64", pe.IMAGE_FILE_MACHINE_ARM64: "arm64"}[f.Machine]
	return fmt.Sprintf("windows/%s, %s", machine, window), nil
}
