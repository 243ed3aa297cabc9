package profiles

var everydayWords = table[map[string][]string]("words.yaml")

// EverydayWord gives the words to look for among the circuits in place of one that people say, such as "fridge"; nil when
// it is not known.
func EverydayWord(word string) []string { return everydayWords()[word] }
