using System.Reflection;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>The sample rate plans that come with the program: the documents in <c>tariffs/</c>, all invented.</summary>
public static class RatePlanLibrary
{
    private const string Prefix = "tariffs/", Extension = ".yaml", SchemaName = "tariffs/rate-plan.schema.json";

    private static readonly Lazy<SortedDictionary<string, (RatePlan Plan, string Text)>> Documents = new(Load);

    /// <summary>Identifiers of all plans, in order.</summary>
    public static IReadOnlyList<string> Ids => [.. Documents.Value.Keys];

    /// <summary>All plans, in order of their identifiers.</summary>
    public static IReadOnlyList<RatePlan> All => [.. Documents.Value.Values.Select(d => d.Plan)];

    /// <summary>A plan by its identifier; none where there is no such plan.</summary>
    public static RatePlan? Find(string id) => Documents.Value.TryGetValue(id, out var document) ? document.Plan : null;

    /// <summary>A plan's document as JSON; none where there is no such plan.</summary>
    public static string? FindJson(string id) =>
        Documents.Value.TryGetValue(id, out var document) ? RatePlanDocument.ToJson(document.Text) : null;

    /// <summary>The JSON Schema (draft 2020-12) of every rate-plan document.</summary>
    public static string Schema => Resource(SchemaName);

    private static string Resource(string name)
    {
        using var reader = new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream(name)!);
        return reader.ReadToEnd();
    }

    private static SortedDictionary<string, (RatePlan Plan, string Text)> Load()
    {
        var documents = new SortedDictionary<string, (RatePlan, string)>(StringComparer.Ordinal);
        foreach (var name in Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(IsPlan))
        {
            var text = Resource(name);
            var id = name[Prefix.Length..^Extension.Length];
            documents.Add(id, (RatePlanDocument.Read(text, id).Value, text));
        }

        return documents;
    }

    private static bool IsPlan(string resource) =>
        resource.StartsWith(Prefix, StringComparison.Ordinal) && resource.EndsWith(Extension, StringComparison.Ordinal);
}
