//! What an instruction names is cautioned about as what is listed: solvents, heat, blades, and where dust rises.

use super::*;
use crate::caution::testing::{paint, scheme, step};
use crate::trade::Family;

/// What is said of a step of this instruction, done by hand and without a product.
fn told(stage: Stage, material: &str, instruction: &str) -> String {
    let mut step = step(stage, Technique::Hand, &[]);
    step.body.text = Arc::from(instruction);
    let kinds = kinds(&scheme(Some(material), Vec::new()), &step, &[]);
    kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
}

/// The same by brush on plastic.
fn brushed(stage: Stage, instruction: &str) -> String {
    let mut step = step(stage, Technique::Brush, &[]);
    step.body.text = Arc::from(instruction);
    let kinds = kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]);
    kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
}

#[test]
fn what_an_instruction_names_is_cautioned_without_a_product() {
    let solvent = "solvent heat skin children";
    let rags = "solvent heat oily-rags skin children";
    for (instruction, said) in [
        ("Wash the model with isopropanol.", solvent),
        ("Wash in 99 % alcohol.", solvent),
        ("Wash the print in IPA.", solvent),
        ("Degrease with acetone on a cloth.", solvent),
        ("Degrease with acetone, not with thinner.", solvent),
        ("Wipe it with lacquer thinner.", solvent),
        ("Clean it with thinner.", solvent),
        ("Mit Isopropanol entfetten.", solvent),
        ("Dégraissez à l'acétone.", solvent),
        ("Desengrasa con acetona.", solvent),
        ("Strip the old paint in isopropyl alcohol overnight.", solvent),
        ("Wipe it with white spirit.", rags),
        ("Mit Terpentin abwischen.", rags),
        ("Nettoyez à l'essence de térébenthine.", rags),
        ("Limpia con aguarrás.", rags),
        ("Cure it under the lamp.", "lamp children"),
        ("Unter der Lampe aushärten.", "lamp children"),
        ("Brush off the uncured resin.", "skin"),
        ("Clip the parts off the frame.", "blade children"),
        ("Scrape the mould lines.", "blade children"),
        ("Schaben, waschen, aufkleben.", "blade children"),
        ("Dip in boiling water to bend it straight.", "hot-water children"),
        ("In heißem Wasser gerade biegen.", "hot-water children"),
        ("Redressez la lance à l'eau chaude.", "hot-water children"),
        ("Solder the mast.", "hot-tool children"),
        ("Fill the gap with two-part epoxy putty.", "hardener skin children"),
        ("Mit Epoxidkleber ankleben.", "hardener skin children"),
        ("A drop of super glue, a shot of accelerator.", "solvent heat glue skin children"),
    ] {
        assert_eq!(told(Stage::Prepare, "plastic", instruction), said, "{instruction}");
    }
    let can = told(Stage::Assemble, "plastic", "Spray it with accelerator.");
    assert!(can.contains("aerosol-can") && can.contains("spray-solvent"), "{can}");
    assert_eq!(told(Stage::Weather, "plastic", "Wipe it with white spirit."), rags);
}

#[test]
fn what_only_sounds_like_a_danger_is_not_cautioned() {
    for instruction in [
        "Keep up the spirit of the wardens.",
        "Wash it in water, never in acetone.",
        "Do not use acetone, alcohol or thinner.",
        "Ohne Aceton entfetten.",
        "Sin acetona.",
        "Degrease with acetone-free remover.",
        "Hold the soldier by the base.",
        "A cold ipa stands beside it.",
        "Look at the joints under the lamp.",
        "Let it cure under a cover.",
        "Clip it to a handle.",
        "Scrape the soap off with a fingernail.",
        "Wash it in lukewarm water.",
    ] {
        assert_eq!(told(Stage::Prepare, "plastic", instruction), "", "{instruction}");
    }
    for instruction in [
        "A drop of thinner makes it run.",
        "The coats get thinner towards the edge.",
        "It protects the paint from white spirit.",
        "Wash the brush in hot water.",
        "Scrape the paint along the edge of the pot.",
        "The solder on the seam shines.",
    ] {
        assert_eq!(told(Stage::Basecoat, "plastic", instruction), "", "{instruction}");
    }
}

/// What the work is called is enough, without a tool; and what a bath takes off is not sanded.
#[test]
fn dangerous_work_is_cautioned_without_a_tool() {
    for (stage, material, instruction, said) in [
        (Stage::Assemble, "resin", "Glue the two halves.", "glue children"),
        (Stage::Assemble, "plastic", "Glue the two hull halves and the turret.", "solvent heat glue skin children"),
        (Stage::Assemble, "PVC", "Glue the two halves.", "solvent heat glue skin children"),
        (Stage::Assemble, "soft PVC", "Glue the two halves.", "glue children"),
        (Stage::Assemble, "plastic", "Glue together with wood glue.", ""),
        (Stage::Assemble, "plastic", "Do not glue the arms yet.", ""),
        (Stage::Basing, "resin", "Glue the rock on.", "glue children"),
        (Stage::Basing, "resin", "Glue tufts and leaves on.", ""),
        (Stage::Basing, "card and wood", "Glue the walls together.", ""),
        (Stage::Prepare, "plastic", "Clip the supports off the print.", "blade children"),
        (Stage::Prepare, "plastic", "Saw the base off.", "dust mask-fit blade children"),
        (Stage::Prepare, "plastic", "Drill 1 mm holes and pin with brass wire.", "blade children"),
        (Stage::Assemble, "plastic", "Stretch sprue over a candle.", "hot-tool children"),
        (Stage::Prepare, "plastic", "Soak it in caustic soda.", "solvent skin children"),
        (Stage::Prepare, "plastic", "In Natronlauge einlegen.", "solvent skin children"),
        (Stage::Prepare, "plastic", "Never in oven cleaner.", ""),
        (Stage::Prepare, "plastic", "Scrub the old paint off in oven cleaner.", "solvent skin children"),
        (Stage::Prepare, "resin", "Soak the old paint off in brake fluid.", "solvent heat skin children"),
        (Stage::Assemble, "resin", "Put the glue on the pin.", "glue children"),
        (Stage::Assemble, "resin", "Glue with double-sided tape.", ""),
        (Stage::Assemble, "resin", "Nothing is glued.", ""),
        (Stage::Assemble, "resin", "The halves are glued.", "glue children"),
        (Stage::Prepare, "resin", "Wash the parts before they are glued on.", ""),
        (Stage::Basing, "plastic", "Glue the rock on with hot glue.", "hot-tool children"),
        (Stage::Basing, "plastic", "Glue the straw and the lichen on.", ""),
        (Stage::Basing, "plastic", "Cut the cork to size.", "blade children"),
        (Stage::Basing, "plastic", "The miller saw the fire first.", ""),
        (Stage::Prepare, "plastic", "Wash it with non-caustic soap.", ""),
        (Stage::Prepare, "plastic", "Keep away from any open flame.", ""),
        (Stage::Weather, "plastic", "Hold it over a candle flame until soot settles.", "hot-tool children"),
    ] {
        assert_eq!(told(stage, material, instruction), said, "{instruction}");
    }
    let stripped = told(Stage::Prepare, "plastic", "Strip the old paint in lye, then sand it.");
    assert!(stripped.contains("dust") && stripped.contains("skin"), "{stripped}");
}

/// A blade in a hand is painted; one that scratches chips is held by the painter.
#[test]
fn a_blade_that_is_painted_cuts_nobody() {
    for instruction in [
        "Paint the knife blade.",
        "Paint the scalpel in her hand grey.",
        "Paint flames along the hem; leave the sanding marks on the anvil.",
    ] {
        assert_eq!(brushed(Stage::Detail, instruction), "", "{instruction}");
    }
    assert_eq!(brushed(Stage::Chip, "Scratch chips with a scalpel."), "blade children");
    assert_eq!(brushed(Stage::Layer, "Sand it smooth first."), "dust mask-fit children");
    assert_eq!(brushed(Stage::Mask, "A knife and a ruler."), "blade children");
    for instruction in ["Hold the scalpel flat.", "Scratch off paint: knife or toothpick.", "Kratzer: Skalpell."] {
        for stage in [Stage::Chip, Stage::Weather] {
            assert_eq!(brushed(stage, instruction), "blade children", "{stage}, {instruction}");
        }
    }
    assert_eq!(brushed(Stage::Detail, "Snip off stray bristles."), "blade children");
    assert_eq!(brushed(Stage::Chip, "Paint the knife rusty."), "");
}

/// Varnish that is sanded dusts, in the words of a title too.
#[test]
fn sanding_between_coats_dusts_where_paint_is_put_on() {
    for stage in [Stage::Basecoat, Stage::Weather] {
        for instruction in
            ["Wet sanding between coats.", "Schmirgelpapier, 2000.", "Paint two coats, sanding between them."]
        {
            assert_eq!(brushed(stage, instruction), "dust mask-fit children", "{stage}, {instruction}");
        }
    }
    let titled = Step { title: "Varnish and sanding".to_owned(), ..step(Stage::Varnish, Technique::Airbrush, &[]) };
    assert!(kinds(&scheme(Some("resin"), Vec::new()), &titled, &[]).contains(&CautionKind::Dust));
}

/// A flame that soots or stretches is hot wherever it is; one that is painted is not, nor is a colour that is lighter.
#[test]
fn a_flame_that_is_painted_burns_nobody() {
    for (stage, instruction) in [
        (Stage::Weather, "Soot the muzzle over a candle flame."),
        (Stage::Weather, "Let the candle flame blacken it."),
        (Stage::Detail, "Make the aerial from sprue over a candle flame."),
        (Stage::Basing, "Soften the reed over a tealight."),
    ] {
        assert_eq!(brushed(stage, instruction), "hot-tool children", "{instruction}");
    }
    for instruction in [
        "Paint the candle flame yellow.",
        "Candle flame",
        "Paint the torch in the flame colours.",
        "Drybrush over the flame pattern.",
        "Drybrush with a lighter grey.",
        "Stipple over a lighter ground.",
    ] {
        for stage in [Stage::Detail, Stage::Layer] {
            assert_eq!(brushed(stage, instruction), "", "{stage}, {instruction}");
        }
    }
}

/// Trim, carvings and slime that are painted are nothing that is done.
#[test]
fn what_is_painted_on_a_base_is_not_cut() {
    let grey = paint(Kind::Paint, Family::Water);
    for instruction in [
        "Paint the black trim.",
        "Trim in black, carving in grey.",
        "Cut the grey with white.",
        "Schneide das Licht mit Grau an.",
        "Recorta con un gris claro.",
        "Drybrush over the flame pattern.",
    ] {
        let mut step = step(Stage::Basing, Technique::Brush, std::slice::from_ref(&grey));
        step.body.text = Arc::from(instruction);
        assert_eq!(kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]), [], "{instruction}");
    }
    for instruction in ["Caustic slime", "Paint the lye bucket.", "Paint the brake fluid pot yellow."] {
        assert_eq!(brushed(Stage::Layer, instruction), "", "{instruction}");
    }
    assert_eq!(brushed(Stage::Basing, "Trim the cork, then brush wood glue on."), "blade children");
}

#[test]
fn a_casting_dusts_unless_the_step_says_what_is_done_without_dust() {
    let dusts = |material: &str, instruction: &str| told(Stage::Prepare, material, instruction).contains("dust");
    for instruction in ["", "Clean up the casting.", "Straighten it in hot water, then file the joint."] {
        assert!(dusts("resin", instruction), "{instruction}");
    }
    for instruction in [
        "Wash.",
        "Straighten the spear in hot water.",
        "In heißem Wasser gerade biegen.",
        "Wipe it with isopropanol.",
        "Strip the old paint in isopropanol.",
    ] {
        assert!(!dusts("resin", instruction), "{instruction}");
    }
    assert!(!dusts("plastic", "Strip the old paint with paint stripper."));
    // Old metal may carry paint with lead in it, and nobody knows that the bath takes off all of it.
    assert!(told(Stage::Prepare, "pewter", "Strip the old paint in isopropanol.").contains("dust lead"));
    assert!(dusts("plastic", "Scrub off the old paint."));
}

#[test]
fn a_seam_that_is_sanded_dusts_alike_where_parts_are_got_ready_and_where_they_are_joined() {
    for instruction in ["Clamp the halves, and sand the seam wet.", "Sand the joints smooth.", "Poncez le joint."] {
        for material in ["plastic", "resin"] {
            let [prepared, joined] = [Stage::Prepare, Stage::Assemble].map(|stage| told(stage, material, instruction));
            assert!(prepared == joined && joined.contains("dust"), "{material}, {instruction}: {prepared}, {joined}");
        }
    }
    // A sponge sands where a word means it, and nowhere else.
    let with = |technique: Technique, instruction: &str| {
        let mut step = step(Stage::Assemble, technique, &[]);
        step.body.text = Arc::from(instruction);
        kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]).contains(&CautionKind::Dust)
    };
    assert!(with(Technique::Sponge, "Sand down the edge.") && !with(Technique::Sponge, "Press it on."));
}

/// What is said of an aerosol can, whatever the technique of the step.
const CAN: &str = "spray-solvent aerosol-can mask-fit heat skin pregnancy children";

/// A can that sprays is an aerosol; one that is painted, filled or told of is not.
#[test]
fn a_can_in_an_instruction_is_an_aerosol() {
    for instruction in [
        "Spray varnish from a rattle can through a stencil.",
        "Spray it with matt varnish from a can.",
        "Mist it with hairspray and wait ten minutes.",
        "Prime it black with a spray can outdoors.",
        "Mit Haarspray einnebeln.",
        "Mattlack aus der Dose aufsprühen.",
        "Aus der Sprühdose grundieren.",
        "Apprêtez à la bombe.",
        "Vernis en bombe.",
        "Imprima con un bote de spray.",
        "Con laca de pelo.",
    ] {
        for stage in [Stage::Mask, Stage::Chip, Stage::Undercoat] {
            assert_eq!(told(stage, "plastic", instruction), CAN, "{stage}, {instruction}");
        }
        assert_eq!(brushed(Stage::Layer, instruction), CAN, "{instruction}");
    }
    for instruction in [
        "Touch up with a brush what the rattle can missed.",
        "Over the undercoat from the can, which was sprayed yesterday, a thin white.",
        "Wet it and scrub, as in the hairspray technique.",
        "Fill a can with water.",
        "Paint the watering can.",
        "Paint the can on his belt.",
        "Paint the spray can in his hand.",
        "Not from a can.",
        "Stipple the spray from the sea.",
        "Was die Sprühdose verfehlt hat, nachziehen.",
        "Peignez la bombe sur sa hanche.",
        "Pinta la lata de su mano.",
    ] {
        assert_eq!(told(Stage::Detail, "plastic", instruction), "", "{instruction}");
        assert_eq!(brushed(Stage::Detail, instruction), "", "{instruction}");
    }
    // What an airbrush sprays comes out of a bottle, whatever that is called.
    let mut airbrushed = step(Stage::Chip, Technique::Airbrush, &[paint(Kind::Resist, Family::Water)]);
    for instruction in ["Airbrush two coats of chipping hairspray.", "Spray two coats of hairspray."] {
        airbrushed.body.text = Arc::from(instruction);
        let kinds = kinds(&scheme(Some("plastic"), Vec::new()), &airbrushed, &[]);
        assert!(!kinds.contains(&CautionKind::AerosolCan), "{instruction}");
    }
}

/// A can on the list is one too.
#[test]
fn a_can_on_the_list_of_tools_is_an_aerosol() {
    for name in ["Rattle can, matt", "Haarspray", "Bombe de vernis", "Lata de spray"] {
        let tools = vec![Arc::new(crate::caution::testing::tool(name))];
        let step = Step { tools, ..step(Stage::Chip, Technique::Hand, &[]) };
        assert!(kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]).contains(&CautionKind::AerosolCan), "{name}");
    }
}

/// Flames and ovens burn fingers in any step; a lighter colour does not.
#[test]
fn a_lighter_a_burner_and_an_oven_are_hot() {
    for instruction in [
        "Hold a lighter under it.",
        "Singe the banner with a lighter for burnt holes.",
        "Pop the bubbles with a gas torch.",
        "Bake it in the oven at 130 degrees.",
        "Dry it in a warm oven.",
        "Die Blasen mit dem Gasbrenner entfernen.",
        "Im Backofen härten.",
        "Chauffez au chalumeau.",
        "Séchez au four.",
        "Calienta con un soplete.",
        "Seca la pieza en el horno.",
    ] {
        for stage in [Stage::Prepare, Stage::Basing, Stage::Weather, Stage::Detail] {
            assert_eq!(told(stage, "plastic", instruction), "hot-tool children", "{stage}, {instruction}");
            assert!(brushed(stage, instruction).contains("hot-tool"), "{stage}, {instruction}");
        }
    }
    for instruction in [
        "A lighter grey.",
        "Drybrush with a lighter colour.",
        "Paint the torch in her hand.",
        "The torch glows.",
        "Baked clay red.",
        "A lighter touch.",
        "With a lighter hand.",
        "Die Fackel glüht.",
        "Peindre le chalumeau.",
        "Pinta el soplete.",
    ] {
        for stage in [Stage::Basing, Stage::Detail] {
            assert_eq!(told(stage, "plastic", instruction), "", "{stage}, {instruction}");
            assert_eq!(brushed(stage, instruction), "", "{stage}, {instruction}");
        }
    }
    assert_eq!(told(Stage::Prepare, "plastic", "Soak it in oven cleaner."), "solvent skin children");
    assert_eq!(told(Stage::Prepare, "plastic", "Wipe it with lighter fluid."), "solvent heat skin children");
}

/// What is filed and rubbed down dusts, on plastic too; soldiers in file and grit on a base do not.
#[test]
fn a_file_grit_and_glass_fibre_dust() {
    for instruction in [
        "File the mould lines off and wash the parts.",
        "Take the mould lines off with a file.",
        "Rub the filler down with 400 grit.",
        "Rub it down with wet and dry.",
        "Die Gussgrate feilen.",
        "Limez les lignes de moule.",
        "Lima las rebabas.",
    ] {
        assert_eq!(told(Stage::Prepare, "plastic", instruction), "dust mask-fit children", "{instruction}");
    }
    for instruction in [
        "Scrub the brass clean with a glass fibre pen.",
        "Mit dem Glasfaserstift säubern.",
        "Mit dem Glasfaserradierer.",
        "Nettoyez au stylo en fibre de verre.",
        "Limpia con un lápiz de fibra de vidrio.",
    ] {
        assert_eq!(told(Stage::Prepare, "plastic", instruction), "dust mask-fit skin children", "{instruction}");
    }
    for instruction in [
        "A single file of soldiers.",
        "The grit on the base.",
        "Write the file name on the card.",
        "Scatter grit and gravel on the base.",
        "Streue Kies auf die Basis.",
    ] {
        for stage in [Stage::Prepare, Stage::Basing, Stage::Detail] {
            assert_eq!(told(stage, "plastic", instruction), "", "{stage}, {instruction}");
        }
    }
}

/// Lead foil is lead, wherever it is cut or bent.
#[test]
fn lead_foil_is_lead() {
    let lead = "lead mask-fit blade pregnancy children";
    assert_eq!(told(Stage::Assemble, "plastic", "Cut straps from lead foil off an old wine bottle."), lead);
    for instruction in ["Riemen aus Bleifolie biegen.", "Feuille de plomb.", "Lámina de plomo.", "Bend lead sheet."] {
        assert_eq!(told(Stage::Assemble, "plastic", instruction), lead.replace("blade ", ""), "{instruction}");
    }
    for instruction in
        ["Lead the line along the hem.", "The lead colour.", "Lead-free foil.", "Rub pencil lead on the edge."]
    {
        assert_eq!(told(Stage::Assemble, "plastic", instruction), "", "{instruction}");
    }
    assert_eq!(brushed(Stage::Detail, "Paint the lead foil straps."), "");
}

/// What is scattered over wet glue is glued by white glue, and powder among it rises.
#[test]
fn ground_that_is_scattered_over_wet_glue_needs_no_solvent() {
    for instruction in [
        "Sieve dirt over wet glue.",
        "Sieve soil over the glue.",
        "Scatter sand over wet glue.",
        "Spread glue and sieve earth over it.",
        "Press mud into the fresh glue.",
        "Kleber auftragen und Erde aufsieben.",
        "Appliquez la colle et saupoudrez de terre.",
        "Aplica pegamento y echa tierra.",
    ] {
        assert_eq!(told(Stage::Basing, "plastic", instruction), "", "{instruction}");
    }
    for instruction in [
        "Sieve dried dirt and chalk dust over wet glue.",
        "Sprinkle plaster powder into the cracks.",
        "Kreidestaub aufsieben.",
        "Saupoudrez de craie en poudre.",
        "Espolvorea cemento en polvo.",
    ] {
        for stage in [Stage::Basing, Stage::Weather] {
            assert_eq!(told(stage, "plastic", instruction), "powder mask-fit children", "{stage}, {instruction}");
        }
    }
    assert_eq!(told(Stage::Weather, "plastic", "A brown the colour of brick dust."), "");
    let cement = "solvent heat glue skin children";
    assert_eq!(told(Stage::Basing, "plastic", "Glue the rock onto the earth."), cement);
    assert_eq!(told(Stage::Assemble, "plastic", "Dann werden die Arme angeklebt."), cement);
    assert_eq!(brushed(Stage::Detail, "Paint the man with a knife."), "");
}
