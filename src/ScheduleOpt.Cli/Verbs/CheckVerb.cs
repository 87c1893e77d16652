using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>Whether rate-plan documents are in order, and what was understood of them.</summary>
internal static class CheckVerb
{
    private const string Name = "check";

    /// <summary>Makes the verb.</summary>
    public static Command Make(Surroundings surroundings, ExampleHelp examples)
    {
        var command = new Command(
            Name, "Checks rate-plan documents: every fault with its line and what must hold; or, in order, the hours and prices that were understood.");
        var files = new Argument<string[]>("FILE")
        {
            Description = "Rate-plan documents (YAML or JSON), - for the standard input, or ids of plans that come with the program.",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var json = Verb.Json();
        json.Description = "The findings as JSON.";
        command.Add(files);
        var database = new RateDatabaseCheck();
        database.AddTo(command);
        command.Add(json);
        examples.Add(command, $"{Verb.Program} {Name} {DemoRequests.RatePlanId}");
        command.SetAction(parsed =>
        {
            var named = parsed.GetValue(files) ?? [];
            if (database.FileOf(parsed) is not null && named.Length == 0)
            {
                return database.Run(surroundings, parsed, parsed.GetValue(json), Name);
            }

            if (Misused(database, parsed, named) is { Length: > 0 } faults)
            {
                return Complaints.Write(surroundings.Error, faults, Name);
            }

            var checkedFiles = named
                .Select(f => (File: f, Reading: RatePlanText.Find(f, "FILE", surroundings.In)))
                .ToArray();
            if (parsed.GetValue(json))
            {
                JsonOutput.Write(surroundings, writer => Write(writer, checkedFiles));
            }
            else
            {
                Show(surroundings, checkedFiles);
            }

            return checkedFiles.All(c => c.Reading.IsRead) ? CommandLine.Answered : CommandLine.BadInput;
        });
        return command;
    }

    private static Fault[] Misused(RateDatabaseCheck database, ParseResult parsed, string[] named) =>
        database.FileOf(parsed) is not null ? [new Fault("FILE", "Can't be combined with --rate-database: check one after the other.", named[0])]
        : named.Length == 0 ? [new Fault("FILE", "Is missing: give at least one rate-plan document, or --rate-database."), .. database.Stray(parsed)]
        : [.. database.Stray(parsed)];

    private static void Show(Surroundings surroundings, (string File, Reading<RatePlanFound> Reading)[] files)
    {
        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        foreach (var (file, reading) in files)
        {
            if (reading.IsRead)
            {
                screen.Heading(file);
                new RatePlanScreen(screen, reading.Value.Plan).Draw();
                screen.Blank();
                screen.Show();
                foreach (var warning in reading.Value.Warnings)
                {
                    surroundings.Error.WriteLine($"warning: {RatePlanText.InFile(warning, file)}");
                }

                continue;
            }

            foreach (var fault in reading.Faults)
            {
                surroundings.Error.WriteLine($"error: {RatePlanText.InFile(fault, file)}");
            }

            surroundings.Error.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{file}: not in order; {reading.Faults.Count} to mend, then check again."));
        }
    }

    private static void Write(Utf8JsonWriter json, (string File, Reading<RatePlanFound> Reading)[] files)
    {
        json.WriteStartArray("documents");
        foreach (var (file, reading) in files)
        {
            json.WriteStartObject();
            json.WriteString("file", file);
            json.WriteBoolean("inOrder", reading.IsRead);
            WriteFindings(json, "faults", reading.Faults);
            WriteFindings(json, "warnings", reading.IsRead ? reading.Value.Warnings : []);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteFindings(Utf8JsonWriter json, string name, IEnumerable<Fault> findings)
    {
        json.WriteStartArray(name);
        foreach (var fault in findings)
        {
            json.WriteStartObject();
            json.WriteString("pointer", fault.Pointer);
            json.WriteString("rule", fault.Rule);
            json.WriteString("value", fault.Value);
            if (fault.Line is { } line)
            {
                json.WriteNumber("line", line);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
