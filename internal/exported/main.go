// Exported lists what packages export and no other package of this module uses:
// functions, types, variables, constants, and methods
// that no interface asks for. A type is used where a value of it is, and a
// constant where its type is. The tests of a package, in a package of their own,
// count as another package.
//
//	go run ./internal/exported [PATTERN…]
package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"os"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

func main() {
	patterns := os.Args[1:]
	if len(patterns) == 0 {
		patterns = []string{"./..."}
	}
	list, err := unused(patterns)
	if err != nil {
		fmt.Fprintln(os.Stderr, "exported:", err)
		os.Exit(1)
	}
	for _, line := range list {
		fmt.Println(line)
	}
}

// A place is where an object is declared. A package is loaded again for its
// tests, with other objects in the same places.
type place = token.Position

// uses are what packages use of one another.
type uses struct {
	fset    *token.FileSet
	objects map[place]bool
	methods map[string]bool // the names that interfaces ask for
}

// unused returns a line for each export without a use elsewhere, by place.
func unused(patterns []string) ([]string, error) {
	here, err := os.Getwd()
	if err != nil {
		return nil, err
	}
	fset := token.NewFileSet()
	loaded, err := packages.Load(&packages.Config{Fset: fset, Mode: packages.LoadAllSyntax, Tests: true}, patterns...)
	if err != nil {
		return nil, err
	}
	u := uses{fset, map[place]bool{}, map[string]bool{}}
	packages.Visit(loaded, nil, func(p *packages.Package) {
		for _, fault := range p.Errors {
			err = fault
		}
		u.interfaces(p.TypesInfo)
	})
	if err != nil {
		return nil, err
	}
	for _, p := range loaded {
		u.of(p)
	}
	var lines []string
	for _, p := range loaded {
		if p.Name == "main" || p.ForTest != "" {
			continue
		}
		for _, object := range u.exports(p.Types) {
			if at := fset.Position(object.Pos()); !u.objects[at] {
				lines = append(lines, fmt.Sprintf("%s: %s", strings.TrimPrefix(at.String(), here+"/"), object.Name()))
			}
		}
	}
	slices.Sort(lines)
	return slices.Compact(lines), nil
}

// exports lists what a package exports: its names but for the constants of a
// type that is used, and the methods of its exported types that no interface
// asks for.
func (u uses) exports(p *types.Package) (list []types.Object) {
	for _, name := range p.Scope().Names() {
		object := p.Scope().Lookup(name)
		if !object.Exported() {
			continue
		}
		named, ok := object.Type().(*types.Named)
		if _, constant := object.(*types.Const); constant && ok && u.objects[u.fset.Position(named.Obj().Pos())] {
			continue
		}
		list = append(list, object)
		if !ok || object != named.Obj() {
			continue
		}
		for method := range named.Methods() {
			if method.Exported() && !u.methods[method.Name()] {
				list = append(list, method)
			}
		}
	}
	return list
}

// interfaces notes the names of the methods that interfaces have.
func (u uses) interfaces(info *types.Info) {
	for e, value := range info.Types {
		if _, ok := e.(*ast.InterfaceType); ok {
			for method := range value.Type.Underlying().(*types.Interface).Methods() {
				u.methods[method.Name()] = true
			}
		}
	}
}

// of notes the objects of other packages that a package names, and the types of
// its values.
func (u uses) of(p *packages.Package) {
	for _, object := range p.TypesInfo.Uses {
		u.note(object, p.Types)
	}
	for _, value := range p.TypesInfo.Types {
		u.noteType(value.Type, p.Types)
	}
}

// note notes an object of another package, and reports whether it is new.
func (u uses) note(object types.Object, by *types.Package) bool {
	if object.Pkg() == nil || object.Pkg().Path() == by.Path() {
		return false
	}
	at := u.fset.Position(object.Pos())
	known := u.objects[at]
	u.objects[at] = true
	return !known
}

// noteType notes the named types that a type is made of, down to the fields of
// structs.
func (u uses) noteType(t types.Type, by *types.Package) {
	switch t := types.Unalias(t).(type) {
	case *types.Named:
		if u.note(t.Obj(), by) {
			u.noteType(t.Underlying(), by)
		}
	case *types.Struct:
		for field := range t.Fields() {
			u.noteType(field.Type(), by)
		}
	case *types.Map:
		u.noteType(t.Key(), by)
		u.noteType(t.Elem(), by)
	case interface{ Elem() types.Type }:
		u.noteType(t.Elem(), by)
	case *types.Tuple:
		for v := range t.Variables() {
			u.noteType(v.Type(), by)
		}
	case *types.Signature:
		u.noteType(t.Params(), by)
		u.noteType(t.Results(), by)
	}
}
