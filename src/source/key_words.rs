//! Keys as authors write them who think in another language than the format's.

use crate::measure::hyphenated;

/// Each key, and what it is called in German, French and Spanish, without accents.
const CALLED: &[(&str, &[&str])] = &[
    ("areas", &["bereich", "bereiche", "flaechen", "zones", "zonas"]),
    ("author", &["autor", "autorin", "auteur", "autora"]),
    ("coats", &["schichten", "anstriche", "couches", "capas", "manos"]),
    ("colour", &["farbton", "couleur", "color"]),
    ("dry", &["trocknen", "trockenzeit", "trocknung", "sechage", "secado"]),
    ("evenings", &["abende", "soirees", "tardes"]),
    ("kind", &["art", "sorte", "genre", "tipo"]),
    ("language", &["sprache", "langue", "idioma"]),
    ("maker", &["hersteller", "marke", "fabricant", "marque", "fabricante", "marca"]),
    ("minutes", &["minuten", "dauer", "duree", "minutos", "duracion"]),
    ("model", &["modell", "figur", "modele", "figurine", "modelo", "miniatura"]),
    ("models", &["modelle", "figuren", "modeles", "figurines", "modelos", "miniaturas"]),
    ("paints", &["farbe", "farben", "peinture", "peintures", "pintura", "pinturas"]),
    ("parts", &["teile", "anteile", "partes"]),
    ("price", &["preis", "prix", "precio"]),
    ("range", &["reihe", "sortiment", "gamme", "gama"]),
    ("safety", &["sicherheit", "vorsicht", "securite", "seguridad"]),
    ("scale", &["massstab", "echelle", "escala"]),
    ("stage", &["phase", "arbeitsgang", "arbeitsschritt", "etape", "fase", "etapa"]),
    ("summary", &["zusammenfassung", "resume", "resumen"]),
    ("title", &["titel", "titre", "titulo"]),
    ("tools", &["werkzeug", "werkzeuge", "outil", "outils", "herramienta", "herramientas"]),
    ("where", &["wo", "ou", "donde"]),
    ("with", &["mit", "womit", "technik", "avec", "technique", "con", "tecnica"]),
];

/// The key that a word of another language stands for.
pub(super) fn key_called(word: &str) -> Option<&'static str> {
    let word = hyphenated(word);
    CALLED.iter().find(|(_, words)| words.contains(&word.as_str())).map(|(key, _)| *key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_known_by_what_they_are_called_elsewhere() {
        for (word, key) in [("Schichten", "coats"), ("Flächen", "areas"), ("étape", "stage"), ("título", "title")] {
            assert_eq!(key_called(word), Some(key), "{word}");
        }
        for word in ["colour-of-the-day", "stage", ""] {
            assert_eq!(key_called(word), None, "{word}");
        }
    }
}
