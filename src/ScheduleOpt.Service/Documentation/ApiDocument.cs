using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace ScheduleOpt.Service.Documentation;

/// <summary>The OpenAPI 3.1 document at <c>/openapi/v1.json</c>.</summary>
/// <remarks>
/// Addresses, names and descriptions come from the mapped endpoints. Bodies are read by hand, so that every fault is found at once; their
/// schemas are therefore written by hand too, in <c>schemas.json</c>, and tests hold them against what is read and what is answered.
/// </remarks>
internal static class ApiDocument
{
    private const string Key = "key";

    private static readonly (string Name, string Description)[] Tags =
    [
        ("Schedules", "When to charge in the coming nights."),
        ("Comparisons", "Set-ups, rate plans and behaviours over a year."),
        ("Jobs", "Long work that answers later."),
        ("Bills", "What a metered series costs on a rate plan."),
        ("Rate plans", "The rate plans that come with the program, all invented."),
        ("Health", "Whether the service lives and can answer. Needs no key."),
    ];

    /// <summary>Sets the document up.</summary>
    public static void AddApiDocument(this WebApplicationBuilder builder) => builder.Services.AddOpenApi("v1", options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer((document, _, _) =>
        {
            Describe(document);
            return Task.CompletedTask;
        });
    });

    /// <summary>Maps its address.</summary>
    public static void MapApiDocument(this WebApplication app) => app.MapOpenApi("/openapi/{documentName:regex(^v1$)}.json");

    private static void Describe(OpenApiDocument document)
    {
        document.Info = new OpenApiInfo
        {
            Title = "ScheduleOpt",
            Version = "v1",
            Description = "Home charging of electric cars: tonight's schedule, the comparison of set-ups and rate plans over a year, and "
                + "bills. Units are in the names of the fields. Unknown fields are refused. Errors are problem details (RFC 9457) "
                + "that name every field at fault.",
            License = new OpenApiLicense { Name = "Apache-2.0", Identifier = "Apache-2.0" },
        };

        // The address it was asked under differs from one host to the next; the document must not.
        document.Servers = [new OpenApiServer { Url = "/" }];
        document.Components = new OpenApiComponents { Schemas = ApiSchemas.Load() };
        document.Tags = Tags.Select(tag => new OpenApiTag { Name = tag.Name, Description = tag.Description }).ToHashSet();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
        {
            [Key] = new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = "bearer",
                Description = "The service's API key, where one is set: it must be, unless the service listens on loopback alone.",
            },
        };

        document.RegisterComponents();
        document.Security = [[], new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(Key, document)] = [] }];
        foreach (var operation in document.Paths.Values.SelectMany(path => path.Operations!.Values))
        {
            ApiBodies.Describe(operation, document);
        }
    }
}
