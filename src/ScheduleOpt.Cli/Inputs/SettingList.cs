using System.CommandLine;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Options that stand for fields of a request; each overrides the field.</summary>
internal abstract class SettingList(TextReader standardInput)
{
    private readonly List<Setting> settings = [];

    /// <summary>The options, in the order in which help shows them.</summary>
    public IReadOnlyList<Setting> All => settings;

    /// <summary>Writes what was typed into a request.</summary>
    public void Apply(ParseResult parsed, RequestDraft draft)
    {
        foreach (var setting in settings)
        {
            setting.Write(draft, parsed);
        }
    }

    /// <summary>The option, or the options, for a field that is missing; none where there is none.</summary>
    public string? OptionFor(string pointer)
    {
        var names = settings.Where(s => Array.Exists(s.Pointers, p => p == pointer || (p.EndsWith("/*", StringComparison.Ordinal) && pointer.StartsWith(p[..^1], StringComparison.Ordinal)))).Select(s => s.Option.Name).ToArray();
        return names.Length > 0 ? string.Join(" or ", names) : null;
    }

    /// <summary>An option that writes what it likes.</summary>
    protected void Add(string name, string shown, string description, string[] pointers, Action<RequestDraft, string> write)
    {
        var option = new Option<string?>(name) { Description = description, HelpName = shown };
        settings.Add(new Setting(option, pointers, (draft, parsed) =>
        {
            if (parsed.GetValue(option) is { } typed)
            {
                write(draft, typed);
            }
        }));
    }

    /// <summary>An option that may be given several times.</summary>
    protected void AddSeveral(string name, string shown, string description, string[] pointers, Action<RequestDraft, string> write)
    {
        var option = new Option<string[]>(name) { Description = description, HelpName = shown };
        settings.Add(new Setting(option, pointers, (draft, parsed) =>
        {
            foreach (var typed in parsed.GetValue(option) ?? [])
            {
                write(draft, typed);
            }
        }));
    }

    /// <summary>A text, as it is typed.</summary>
    protected void AddText(string name, string shown, string description, string pointer) =>
        Add(name, shown, description, [pointer], (draft, typed) => draft.Set(pointer, JsonValue.Create(typed), name, typed));

    /// <summary>A number.</summary>
    protected void AddNumber(string name, string description, string pointer) =>
        Add(name, "NUMBER", description, [pointer], (draft, typed) => draft.Set(pointer, RequestDraft.Number(typed), name, typed));

    /// <summary>A state of charge, as a fraction or in per cent.</summary>
    protected void AddState(string name, string description, string pointer) =>
        Add(name, "STATE", description, [pointer], (draft, typed) =>
        {
            var percent = typed.TrimEnd().EndsWith('%');
            var number = RequestDraft.Number(percent ? typed.TrimEnd().TrimEnd('%') : typed);
            var fraction = percent && number.AsValue().TryGetValue<decimal>(out var n) ? JsonValue.Create(n / 100) : number;
            draft.Set(pointer, fraction, name, typed);
        });

    /// <summary>A file whose text becomes a field.</summary>
    /// <param name="name">The option.</param>
    /// <param name="description">What the file holds.</param>
    /// <param name="pointer">The field.</param>
    /// <param name="field">Makes the field of path and text; none where it has noted faults.</param>
    protected void AddFile(string name, string description, string pointer, Func<RequestDraft, string, string, JsonNode?> field) =>
        Add(name, "FILE", description, [pointer], (draft, path) =>
        {
            if (Text(draft, name, path) is { } text && field(draft, Shown(path), text) is { } value)
            {
                draft.Set(pointer, value, name, path);
            }
        });

    /// <summary>What faults in a file are told under.</summary>
    protected static string Shown(string path) => path == "-" ? "standard input" : path;

    /// <summary>The text of a file; none, with faults, where it can't be read.</summary>
    protected string? Text(RequestDraft draft, string name, string path)
    {
        var text = InputText.Read(path, name, standardInput);
        draft.Faults.AddRange(text.Faults);
        return text.IsRead ? text.Value : null;
    }

    /// <summary>A rate plan, by its id or as a document.</summary>
    protected void AddRatePlan(string name) =>
        Add(name, "PLAN", "Id of a rate plan that comes with the program, or the file of a rate-plan document.", ["#/ratePlan"], (draft, typed) =>
        {
            var plan = RatePlanText.Find(typed, name, standardInput);
            draft.Faults.AddRange(plan.Faults.Select(f => RatePlanText.InFile(f, typed)));
            if (plan.IsRead)
            {
                draft.Set("#/ratePlan", plan.Value.Json.DeepClone(), name, typed);
            }
        });

    /// <summary>Notes that what was typed has not the form it must have.</summary>
    protected static void Refuse(RequestDraft draft, string name, string rule, string typed) => draft.Faults.Add(new Fault(name, rule, typed));
}
