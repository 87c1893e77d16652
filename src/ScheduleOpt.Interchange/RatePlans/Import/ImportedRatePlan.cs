using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>A rate plan made from a record of the open US rate database.</summary>
/// <param name="Id">An identifier made from utility, name and label.</param>
/// <param name="Document">The rate-plan document; <see cref="RatePlanDocument.Read"/> accepts it.</param>
/// <param name="Fields">What became of each field of the record, and what the database could not say.</param>
public sealed record ImportedRatePlan(string Id, JsonObject Document, IReadOnlyList<FieldCarried> Fields)
{
    /// <summary>Fields that bills leave out.</summary>
    public IEnumerable<FieldCarried> NotCarried => Fields.Where(f => f.How == Carried.No);
}
