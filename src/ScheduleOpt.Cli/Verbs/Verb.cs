using System.CommandLine;
using System.CommandLine.Help;
using ScheduleOpt.Cli.Inputs;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>The verbs and the options that several of them share.</summary>
internal static class Verb
{
    /// <summary>What people type.</summary>
    public const string Program = "scheduleopt";

    /// <summary>All verbs; none given: the demo.</summary>
    public static RootCommand Root(Surroundings surroundings)
    {
        var root = new RootCommand(
            "Works out when to charge an electric car at home, what it costs, and which rate plan and set-up cost least over a year. "
            + "Without a verb: a demo with an invented household.")
        {
            HelpName = Program,
        };
        var examples = new ExampleHelp();
        DemoVerb.AddTo(root, surroundings, examples);
        root.Add(ScheduleVerb.Make(surroundings, examples));
        root.Add(CompareVerb.Make(surroundings, examples));
        root.Add(BillVerb.Make(surroundings, examples));
        root.Add(CheckVerb.Make(surroundings, examples));
        root.Add(ServeVerb.Make(surroundings, examples));
        root.Options.OfType<HelpOption>().Single().Action = examples;
        return root;
    }

    /// <summary>The option for an answer that machines read.</summary>
    public static Option<bool> Json() => new("--json") { Description = "The answer as JSON, as the HTTP service gives it." };

    /// <summary>The option for the request's file.</summary>
    public static Option<string?> Request() =>
        new("--request") { Description = "The request as a JSON file, as the HTTP service takes it; - for the standard input.", HelpName = "FILE" };

    /// <summary>The option that begins with the demo household's request.</summary>
    public static Option<bool> Demo() => new("--demo") { Description = "Begin with the request of the invented demo household." };

    /// <summary>Begins a request with a file, the demo's, or nothing.</summary>
    public static Interchange.Reading<RequestDraft> Begin(
        string? file, bool demo, Func<System.Text.Json.Nodes.JsonObject> ofDemo, Func<System.Text.Json.Nodes.JsonObject>? ofNothing, Surroundings surroundings)
    {
        if (file is not null && demo)
        {
            return Interchange.Reading<RequestDraft>.Refused(new Interchange.Fault("--demo", "Can't be combined with --request."));
        }

        if (demo)
        {
            return new RequestDraft(ofDemo(), DemoRequests.Source);
        }

        if (file is null)
        {
            return ofNothing is not null
                ? new RequestDraft(ofNothing(), "")
                : Interchange.Reading<RequestDraft>.Refused(new Interchange.Fault("--request", "Give a request file, - for the standard input, or --demo."));
        }

        var text = InputText.Read(file, "--request", surroundings.In);
        return text.IsRead
            ? RequestDraft.Of(text.Value, file == "-" ? "standard input " : $"{file} ")
            : Interchange.Reading<RequestDraft>.Refused(text.Faults);
    }
}
