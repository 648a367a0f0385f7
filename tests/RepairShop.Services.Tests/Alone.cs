using Xunit;

namespace RepairShop.Services.Tests;

/// <summary>For tests that measure the whole process: nothing runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
