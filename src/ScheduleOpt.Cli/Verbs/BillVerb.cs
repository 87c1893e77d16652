using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>What a metered series costs on a rate plan.</summary>
internal static class BillVerb
{
    private const string Name = "bill";

    /// <summary>Makes the verb.</summary>
    public static Command Make(Surroundings surroundings, ExampleHelp examples)
    {
        var command = new Command(Name, "What a metered series costs on a rate plan, line by line. A request file, or readings in a CSV file.");
        var (request, demo, json) = (Verb.Request(), Verb.Demo(), Verb.Json());
        var settings = new BillSettings(surroundings.In);
        command.Add(request);
        command.Add(demo);
        foreach (var setting in settings.All)
        {
            command.Add(setting.Option);
        }

        command.Add(json);
        examples.Add(command, $"{Verb.Program} {Name} --demo --rate-plan example-power-standard");
        command.SetAction(parsed =>
        {
            var draft = Verb.Begin(parsed.GetValue(request), parsed.GetValue(demo), DemoRequests.Bill, Nothing, surroundings);
            if (!draft.IsRead)
            {
                return Complaints.Write(surroundings.Error, draft.Faults, Name);
            }

            settings.Apply(parsed, draft.Value);
            Complaints.Note(surroundings.Error, draft.Value.Notes);
            var reading = draft.Value.Read(BillRequestReader.Read, settings.OptionFor);
            return reading.IsRead
                ? Answer(surroundings, reading.Value, parsed.GetValue(json))
                : Complaints.Write(surroundings.Error, reading.Faults.Select(settings.InFile), Name);
        });
        return command;
    }

    private static JsonObject Nothing() => new() { ["series"] = new JsonObject() };

    private static int Answer(Surroundings surroundings, BillRequest request, bool asJson)
    {
        var bill = request.Bill();
        if (asJson)
        {
            JsonOutput.Write(surroundings, BillAnswerWriter.Write(request, bill));
            return CommandLine.Answered;
        }

        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        screen.Heading("Bill");
        new BillScreen(screen, request, bill).Draw();
        screen.Blank();
        screen.Say(Cautions.BillsAreEstimates);
        screen.Show();
        return CommandLine.Answered;
    }
}
