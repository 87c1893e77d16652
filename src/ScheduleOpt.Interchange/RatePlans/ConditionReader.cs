using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads options, allowances, and conditions on choices.</summary>
internal static class ConditionReader
{
    private const decimal MostKwh = 1_000_000;

    /// <summary>The options of a plan.</summary>
    public static IReadOnlyList<HouseholdOption> Options(Field field)
    {
        var options = new List<HouseholdOption>();
        foreach (var element in field.List(1, 10, required: false))
        {
            element.IsObject();
            var name = element["name"].Text(40);
            if (options.Any(o => o.Name == name))
            {
                element["name"].Fault("Each name must be given once.");
            }

            string[] choices = [.. element["choices"].List(2, 40).Select(c => c.Text(40))];
            if (choices.Distinct().Count() != choices.Length)
            {
                element["choices"].Fault("Each choice must be given once.");
            }

            var standard = element["default"].Text(40);
            if (standard.Length > 0 && !choices.Contains(standard))
            {
                element["default"].Fault($"It must be one of the choices: {string.Join(", ", choices)}.");
            }

            options.Add(new(name, choices, standard, element["description"].Text(500, "")));
            element.RefuseOthers();
        }

        return options;
    }

    /// <summary>The allowances of a plan.</summary>
    public static IReadOnlyList<Allowance> Allowances(Field field, string[] seasons, IReadOnlyList<HouseholdOption> options)
    {
        var allowances = new List<Allowance>();
        foreach (var element in field.List(1, 20, required: false))
        {
            element.IsObject();
            var name = element["name"].Text(40);
            if (allowances.Any(a => a.Name == name))
            {
                element["name"].Fault("Each name must be given once.");
            }

            allowances.Add(new(name, [.. element["amounts"].List(1, 200).Select(a =>
            {
                a.IsObject();
                var amount = new AllowanceAmount(a["kwh"].Number(0.001m, MostKwh, "kWh"), a["seasons"].Names(seasons, "seasons"), Read(a["when"], options));
                a.RefuseOthers();
                return amount;
            })]));
            element.RefuseOthers();
        }

        return allowances;
    }

    /// <summary>A condition on choices; none where the field is left out.</summary>
    public static Condition? Read(Field field, IReadOnlyList<HouseholdOption> options)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        var choices = new Dictionary<string, IReadOnlyList<string>>();
        foreach (var (name, member) in field.FreeMembers())
        {
            if (options.FirstOrDefault(o => o.Name == name) is not { } option)
            {
                member.Fault($"It must name one of the options: {string.Join(", ", options.Select(o => o.Name).DefaultIfEmpty("none"))}.", name);
                continue;
            }

            choices[name] = member.Names(option.Choices, $"choices of {name}", required: true);
        }

        if (choices.Count == 0)
        {
            field.Fault("It must name at least one option.", "none");
        }

        return new(choices);
    }
}
