//! One source text, with its comments and strings told apart from its code.
//!
//! A small reader of Rust's lexical rules: enough to part words, not to understand them.

/// A source file as text, as code without comments and strings, and as words.
pub(crate) struct Source {
    /// Path from the repository's top, with `/`.
    pub(crate) path: String,
    /// The text as it stands.
    pub(crate) text: String,
    /// The text with comments and the insides of strings made blank; lines kept.
    pub(crate) code: String,
    /// The words of the code in order.
    pub(crate) words: Vec<Word>,
    /// Comments with the line each begins on.
    pub(crate) comments: Vec<(usize, String)>,
}

/// A name, number, `::` or single sign, with its line (from 1).
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Word {
    pub(crate) text: String,
    pub(crate) line: usize,
}

/// A broken rule: where and what.
#[derive(Debug)]
pub(crate) struct Fault {
    pub(crate) path: String,
    pub(crate) line: usize,
    pub(crate) what: String,
}

impl Fault {
    pub(crate) fn text(&self) -> String {
        format!("{}:{}: {}", self.path, self.line, self.what)
    }
}

impl Source {
    pub(crate) fn new(path: &str, text: &str) -> Self {
        let (code, comments) = parted(text);
        let words = words_of(&code);
        Self {
            path: path.to_owned(),
            text: text.to_owned(),
            code,
            words,
            comments,
        }
    }

    pub(crate) fn fault(&self, line: usize, what: impl Into<String>) -> Fault {
        Fault {
            path: self.path.clone(),
            line,
            what: what.into(),
        }
    }

    pub(crate) fn is_under(&self, folder: &str) -> bool {
        self.path == format!("{folder}.rs") || self.path.starts_with(&format!("{folder}/"))
    }

    /// The words less everything that is compiled for tests alone.
    pub(crate) fn words_outside_tests(&self) -> Vec<Word> {
        let mark = ["#", "[", "cfg", "(", "test", ")", "]"];
        let mut kept = Vec::new();
        let mut place = 0;
        while place < self.words.len() {
            if is_at(&self.words, place, &mark) {
                place = end_of_item(&self.words, place + mark.len());
            } else {
                kept.push(self.words[place].clone());
                place += 1;
            }
        }
        kept
    }
}

/// Whether `pattern` stands at `place`.
pub(crate) fn is_at(words: &[Word], place: usize, pattern: &[&str]) -> bool {
    pattern.iter().enumerate().all(|(step, wanted)| {
        words
            .get(place + step)
            .is_some_and(|word| word.text == *wanted)
    })
}

/// The place of the sign that closes the bracket at `open`; the end where it is never closed.
pub(crate) fn closing(words: &[Word], open: usize) -> usize {
    let mut depth = 0_i32;
    for (place, word) in words.iter().enumerate().skip(open) {
        match word.text.as_str() {
            "(" | "[" | "{" => depth += 1,
            ")" | "]" | "}" => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return place;
        }
    }
    words.len()
}

/// The place after the item that begins at `place`: after its `;` or its braces.
fn end_of_item(words: &[Word], mut place: usize) -> usize {
    while let Some(word) = words.get(place) {
        match word.text.as_str() {
            ";" => return place + 1,
            "{" => return closing(words, place) + 1,
            "(" | "[" => place = closing(words, place) + 1,
            _ => place += 1,
        }
    }
    place
}

/// The code with comments and strings blank, and the comments.
fn parted(text: &str) -> (String, Vec<(usize, String)>) {
    let signs: Vec<char> = text.chars().collect();
    let mut code = String::with_capacity(text.len());
    let mut comments = Vec::new();
    let mut line = 1;
    let mut place = 0;
    while place < signs.len() {
        let (end, is_comment) = span_at(&signs, place);
        let span: String = signs[place..end].iter().collect();
        if is_comment {
            comments.push((line, span.clone()));
        }
        if end - place == 1 {
            code.push(signs[place]);
        } else {
            code.extend(span.chars().map(|c| if c == '\n' { '\n' } else { ' ' }));
        }
        line += span.matches('\n').count();
        place = end;
    }
    (code, comments)
}

/// Where the comment, string or single sign at `place` ends, and whether it is a comment.
fn span_at(signs: &[char], place: usize) -> (usize, bool) {
    let next = signs.get(place + 1).copied().unwrap_or(' ');
    let before = place.checked_sub(1).map_or(' ', |at| signs[at]);
    let in_name = before.is_alphanumeric() || before == '_';
    match signs[place] {
        '/' if next == '/' => (line_end(signs, place), true),
        '/' if next == '*' => (block_end(signs, place), true),
        '"' => (string_end(signs, place + 1), false),
        'r' | 'b' if !in_name => (prefixed_string_end(signs, place), false),
        '\'' => (quote_end(signs, place), false),
        _ => (place + 1, false),
    }
}

fn line_end(signs: &[char], place: usize) -> usize {
    (place..signs.len())
        .find(|&at| signs[at] == '\n')
        .unwrap_or(signs.len())
}

fn block_end(signs: &[char], place: usize) -> usize {
    let mut depth = 0;
    let mut at = place;
    while at + 1 < signs.len() {
        match (signs[at], signs[at + 1]) {
            ('/', '*') => depth += 1,
            ('*', '/') => depth -= 1,
            _ => {
                at += 1;
                continue;
            }
        }
        at += 2;
        if depth == 0 {
            return at;
        }
    }
    signs.len()
}

fn string_end(signs: &[char], mut at: usize) -> usize {
    while at < signs.len() {
        match signs[at] {
            '\\' => at += 2,
            '"' => return at + 1,
            _ => at += 1,
        }
    }
    signs.len()
}

/// The end of `r"…"`, `r#"…"#`, `b"…"`, `br"…"` or `b'…'`; one sign on where it is only a name.
fn prefixed_string_end(signs: &[char], place: usize) -> usize {
    let mut at = place;
    let is_raw = signs[place] == 'r' || signs.get(place + 1) == Some(&'r');
    while matches!(signs.get(at), Some('r' | 'b')) && at < place + 2 {
        at += 1;
    }
    let hashes = signs[at..].iter().take_while(|c| **c == '#').count();
    match signs.get(at + hashes) {
        Some('"') if is_raw => {
            let close: Vec<char> = std::iter::once('"')
                .chain(std::iter::repeat_n('#', hashes))
                .collect();
            (at + hashes + 1..signs.len())
                .find(|&from| signs[from..].starts_with(&close))
                .map_or(signs.len(), |from| from + close.len())
        }
        Some('"') if hashes == 0 => string_end(signs, at + 1),
        Some('\'') if hashes == 0 && at == place + 1 && signs[place] == 'b' => quote_end(signs, at),
        _ => place + 1,
    }
}

/// The end of a character such as `'x'` or `'\n'`; one sign on where it is a lifetime.
fn quote_end(signs: &[char], place: usize) -> usize {
    if signs.get(place + 1) == Some(&'\\') {
        return (place + 3..signs.len())
            .find(|&at| signs[at] == '\'')
            .map_or(signs.len(), |at| at + 1);
    }
    if signs.get(place + 2) == Some(&'\'') {
        place + 3
    } else {
        place + 1
    }
}

fn words_of(code: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    for (row, text) in code.lines().enumerate() {
        let line = row + 1;
        let mut rest = text.trim_start();
        while let Some(first) = rest.chars().next() {
            let length = if first.is_alphanumeric() || first == '_' {
                rest.find(|c: char| !c.is_alphanumeric() && c != '_')
                    .unwrap_or(rest.len())
            } else if rest.starts_with("::") {
                2
            } else {
                first.len_utf8()
            };
            let (word, after) = rest.split_at(length);
            words.push(Word {
                text: word.to_owned(),
                line,
            });
            rest = after.trim_start();
        }
    }
    words
}

#[test]
fn comments_strings_and_characters_are_no_code() {
    let text = "let a = \"x.unwrap()\"; // b.unwrap()\nlet c = r#\"d \" e\"#; /* f /* g */ h */ let i: &'static str = j('\\'', '\"', b'k');";
    let source = Source::new("src/a.rs", text);
    let words: Vec<&str> = source.words.iter().map(|word| word.text.as_str()).collect();
    let expected = "let a = ; let c = ; let i : & ' static str = j ( , , ) ;";
    assert_eq!(words.join(" "), expected);
    assert_eq!(source.comments.len(), 2);
    assert_eq!(source.comments[0].0, 1);
    assert_eq!(source.comments[1].0, 2);
}

#[test]
fn tests_inside_a_source_are_left_out() {
    let text = "fn a() {}\n#[cfg(test)]\nmod tests { fn b() { c.unwrap(); } }\n#[cfg(test)]\nuse d;\nfn e() {}";
    let source = Source::new("src/a.rs", text);
    let words: Vec<String> = source
        .words_outside_tests()
        .into_iter()
        .map(|word| word.text)
        .collect();
    assert_eq!(words.join(" "), "fn a ( ) { } fn e ( ) { }");
}
