using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using NodaTime;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.RatePlans.Import;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>The part of <c>check</c> that makes a rate plan of a record of the open US rate database and says what could not be carried.</summary>
internal sealed class RateDatabaseCheck
{
    private const string OptionName = "--rate-database";

    private readonly Option<string?> file = new(OptionName)
    {
        Description = "A record of the open US utility rate database (OpenEI, JSON): made into a rate plan, with what could not be carried. Needs --zone.",
        HelpName = "FILE",
    };

    private readonly Option<string?> zone = new("--zone") { Description = "Time zone of the record's utility, such as America/Chicago.", HelpName = "ZONE" };
    private readonly Option<string?> label = new("--label") { Description = "Which record, of a file with several.", HelpName = "LABEL" };

    private readonly Option<bool> byPeriod = new("--tiers-by-period")
    {
        Description = "Limits of the record's tiers count the use of each period by itself, not that of the whole month.",
    };

    private readonly Option<string?> write = new("--write") { Description = "Write the rate plan made of the record: .json, else YAML.", HelpName = "PLAN" };

    /// <summary>Adds the options to the verb.</summary>
    public void AddTo(Command command)
    {
        command.Add(file);
        command.Add(zone);
        command.Add(label);
        command.Add(byPeriod);
        command.Add(write);
    }

    /// <summary>The record's file; none where none was given.</summary>
    public string? FileOf(ParseResult parsed) => parsed.GetValue(file);

    /// <summary>Options that mean nothing without a record.</summary>
    public IEnumerable<Fault> Stray(ParseResult parsed) => new Option[] { zone, label, byPeriod, write }
        .Where(o => parsed.GetResult(o) is { Implicit: false })
        .Select(o => new Fault(o.Name, $"Is used together with {OptionName} alone."));

    /// <summary>Makes the rate plan, shows it and writes it.</summary>
    public int Run(Surroundings surroundings, ParseResult parsed, bool asJson, string verb)
    {
        var faults = new List<Fault>();
        var path = parsed.GetRequiredValue(file)!;
        var text = InputText.Read(path, OptionName, surroundings.In);
        faults.AddRange(text.Faults);
        var clock = parsed.GetValue(zone) is { } id ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) : null;
        if (clock is null)
        {
            faults.Add(new Fault(
                "--zone", "Must be the IANA time zone of the utility, such as America/Chicago: the database does not say it.", parsed.GetValue(zone) ?? ""));
        }

        if (!text.IsRead || clock is null)
        {
            return Complaints.Write(surroundings.Error, faults, verb);
        }

        var import = RateDatabaseImport.Read(text.Value, new RateImportOptions
        {
            Zone = clock,
            Label = parsed.GetValue(label),
            Tiers = parsed.GetValue(byPeriod) ? TierCounting.ByPeriod : TierCounting.OverAllPeriods,
        });
        if (!import.IsRead)
        {
            return Complaints.Write(surroundings.Error, import.Faults.Select(f => RatePlanText.InFile(f, path)), verb);
        }

        var target = parsed.GetValue(write);
        if (target is not null && OutputFile.Write(target, "--write", DocumentIn(import.Value, target)) is { } fault)
        {
            return Complaints.Write(surroundings.Error, [fault], verb);
        }

        if (asJson)
        {
            JsonOutput.Write(surroundings, json => Write(json, import.Value));
        }
        else
        {
            Show(surroundings, path, target, import.Value);
        }

        return CommandLine.Answered;
    }

    private static byte[] DocumentIn(ImportedRatePlan import, string target) => Encoding.UTF8.GetBytes(
        target.EndsWith(".json", StringComparison.OrdinalIgnoreCase)
            ? RatePlanDocument.ToJson(import.Document.ToJsonString()) + "\n"
            : DocumentYaml.Write(import.Document));

    private static void Show(Surroundings surroundings, string path, string? target, ImportedRatePlan import)
    {
        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        screen.Heading(path);
        new RatePlanScreen(screen, RatePlanDocument.Read(import.Document.ToJsonString(), import.Id).Value).Draw();
        Part(screen, "Not carried: bills leave these out.", import.NotCarried);
        Part(screen, "Carried with an assumption: look at these.", import.Fields.Where(f => f.How == Carried.WithAssumption));
        screen.Blank();
        screen.Say(string.Create(CultureInfo.InvariantCulture, $"Carried as they stand: {import.Fields.Count(f => f.How == Carried.Yes)} fields."));
        screen.Say(target is null ? "--write PLAN.yaml writes the rate plan." : $"Written to {target}.");
        screen.Show();
    }

    private static void Part(Screen screen, string heading, IEnumerable<FieldCarried> fields)
    {
        var sentences = fields.Select(f => f.Note.Length > 0 ? $"{f.Field}: {f.Note}" : f.Field).ToArray();
        if (sentences.Length > 0)
        {
            screen.Blank();
            screen.Say(heading, "bold");
            screen.List(sentences);
        }
    }

    private static void Write(Utf8JsonWriter json, ImportedRatePlan import)
    {
        json.WriteString("id", import.Id);
        json.WriteStartArray("fields");
        foreach (var field in import.Fields)
        {
            json.WriteStartObject();
            json.WriteString("field", field.Field);
            json.WriteString("carried", field.How switch { Carried.Yes => "yes", Carried.No => "no", _ => "withAssumption" });
            json.WriteString("note", field.Note);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WritePropertyName("document");
        json.WriteRawValue(import.Document.ToJsonString());
    }
}
